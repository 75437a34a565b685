using System.Globalization;
using System.Text;
using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Link;

/// <summary>Scripts for the host's side to begin with: the exchange of docs/protocol.md, and what else instruments do.</summary>
internal static class HostScripts
{
    private const string Boot = "8F3A11C02B77D4E9";
    private const string NextBoot = "1D20C4B89E6A7F35";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<byte[]> All { get; } =
    [
        Exchange(),
        Script([.. Met(Boot, 0), "!d", .. Events(Boot, 1, 40), "!d"]),
        Script([
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 3),
            Event(Boot, 90, "GAP,4"),
            .. Events(Boot, 91, 5),
            "!d",
            "!t 1000",
        ]),
        Script([
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 3),
            $"BEAT,{Boot},9000,20,30,-",
            .. Events(Boot, 20, 5),
            "!d",
        ]),
        Script([.. Met(Boot, 7, "0BADCAFE"), "!d", $"BEAT,{Boot},9000,8,12,-", .. Events(Boot, 8, 5), "!d"]),
        Script([
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 3),
            "!d",
            .. Met(NextBoot, 0),
            "!d",
            .. Events(NextBoot, 1, 3),
            "!d 2",
        ]),
        Script([
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 3),
            "!c",
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 6),
            "!d",
            "!x",
            "!d",
            "!t 3000",
        ]),
        Script(["HELD,0BADCAFE,4", "!t 3000", "!k", .. Met(Boot, 0), "NOVERSION,2,3", "!t 10000"]),
        Script([
            .. Met(Boot, 0),
            "!d",
            .. Events(Boot, 1, 3),
            Event(Boot, 2, "FIX,NEAR"),
            Event(Boot, 2, "FIX,FAR"),
            "!d",
            Event(Boot, 4, "OFF"),
            "!d",
            "!t 3000",
        ]),
    ];

    /// <summary>Lines and acts as a script; lines get their checksums.</summary>
    public static byte[] Script(IEnumerable<string> lines) =>
        Encoding.ASCII.GetBytes(string.Concat(lines.Select(line => (line[0] == '!' ? line : Sealed(line)) + "\n")));

    /// <summary>A line with its checksum.</summary>
    public static string Sealed(string body)
    {
        var digits = new byte[8];
        ReferenceCrc.Write(ReferenceCrc.Of(Encoding.ASCII.GetBytes(body)), digits);
        return $"{body}*{Encoding.ASCII.GetString(digits)}";
    }

    private static IEnumerable<string> Met(string boot, long acknowledged, string by = "-") =>
        [
            $"ID,1,QA-0001,Quay-A,1.4.0,{boot},MLPO,2,{acknowledged},{by}",
            "STOP,1,IDLE,-",
            "STOP,2,MEASURE,-",
            "SCALE,R,2000,OUT,10,0,30000",
            "SCALE,L,2000,OUT,10,0,30000",
            $"BEAT,{boot},300,{acknowledged + 1},{acknowledged},-",
        ];

    private static IEnumerable<string> Events(string boot, long from, int count) =>
        Enumerable.Range(0, count).Select(i => Event(boot, from + i, $"REST,R,{5000 + i}"));

    private static string Event(string boot, long sequence, string kind) =>
        $"EV,{boot},{sequence},{sequence * 100},{kind}";

    /// <summary>The exchange of the page, what the instrument says in it, in its time; entries are durable soon.</summary>
    private static byte[] Exchange()
    {
        var script = new StringBuilder();
        var last = 0.0;
        foreach (var (at, isHost, text) in ProtocolPage.Said)
        {
            if (at > last)
                script.Append(CultureInfo.InvariantCulture, $"!d\n!t {(at - last) * 1000:F0}\n");
            last = at;
            if (!isHost)
                script.Append(text).Append('\n');
        }

        return Encoding.ASCII.GetBytes(script.ToString());
    }
}
