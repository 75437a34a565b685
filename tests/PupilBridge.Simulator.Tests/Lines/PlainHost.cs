using System.Globalization;
using System.Text;

namespace PupilBridge.Simulator.Tests.Lines;

/// <summary>
/// A small host written from the protocol's text alone, without the product's codec and link, so that simulator and product
/// are not checked against themselves: it greets, takes events in order, acknowledges, and asks again.
/// </summary>
internal sealed class PlainHost(string id = "0000BEEF")
{
    private readonly StringBuilder toSend = new();
    private readonly StringBuilder partial = new();
    private TimeSpan now;
    private TimeSpan lastGoodLine;
    private TimeSpan lastGreeting = TimeSpan.MinValue;
    private TimeSpan lastResend = TimeSpan.MinValue;
    private TimeSpan lastAck;

    /// <summary>Every well-formed line, without its CRC.</summary>
    public List<string> Lines { get; } = [];

    /// <summary>What is recorded: boot, number and the text of kind and fields; gaps as <c>GAP</c> with their span.</summary>
    public List<(string Boot, long First, long Last, long Tick, string Text)> Recorded { get; } = [];

    public int BadLines { get; private set; }

    public string? Boot { get; private set; }

    /// <summary>Whether it acknowledges; a host whose disk is slow does not.</summary>
    public bool Acknowledges { get; set; } = true;

    public long Expected => Boot is null ? 1 : LastOf(Boot) + 1;

    public void Command(int number, string command) => Say($"CMD,{id},{number},{command}");

    /// <summary>The port was lost and opened again.</summary>
    public void Reopen() => lastGreeting = TimeSpan.MinValue;

    public byte[] Exchange(ReadOnlySpan<byte> arrived, TimeSpan at)
    {
        now = at;
        partial.Append(Encoding.Latin1.GetString(arrived));
        var text = partial.ToString();
        var end = text.LastIndexOf('\n');
        partial.Clear().Append(text[(end + 1)..]);
        foreach (var line in end < 0 ? [] : text[..end].Split('\n'))
        {
            Take(line);
        }

        if (lastGreeting == TimeSpan.MinValue || (Boot is null && now - lastGreeting > TimeSpan.FromSeconds(1)))
        {
            Greet();
        }
        else if (now - lastGoodLine > TimeSpan.FromSeconds(3) && now - lastGreeting > TimeSpan.FromSeconds(3))
        {
            Greet();
        }
        else if (Boot is not null && now - lastAck > TimeSpan.FromSeconds(2))
        {
            Acknowledge();
        }

        var bytes = Encoding.ASCII.GetBytes(toSend.ToString());
        toSend.Clear();
        return bytes;
    }

    public static uint Crc(string text)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var c in text)
        {
            crc ^= (byte)c;
            for (var i = 0; i < 8; i++)
            {
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
            }
        }

        return ~crc;
    }

    public void Say(string body) => toSend.Append(CultureInfo.InvariantCulture, $"{body}*{Crc(body):X8}\n");

    private void Greet()
    {
        lastGreeting = now;
        lastGoodLine = now;
        Say($"WHO,{id},1,1");
    }

    private void Take(string line)
    {
        var star = line.LastIndexOf('*');
        if (star < 0 || line.Length != star + 9 || line[(star + 1)..] != Crc(line[..star]).ToString("X8", null))
        {
            BadLines += line.Length > 0 ? 1 : 0;
            return;
        }

        lastGoodLine = now;
        var body = line[..star];
        Lines.Add(body);
        var fields = body.Split(',');
        switch (fields[0])
        {
            case "ID":
                Boot = fields[5];
                break;
            case "EV":
                TakeEvent(fields);
                break;
            case "BEAT" when fields[1] != Boot:
                Greet();
                break;
            case "BEAT" when Number(fields[4]) >= Expected:
                AskAgain();
                break;
            default:
                break;
        }
    }

    private void TakeEvent(string[] fields)
    {
        var sequence = Number(fields[2]);
        if (fields[1] != Boot)
        {
            Greet();
            return;
        }

        var first = fields[4] == "GAP" ? Math.Max(Number(fields[5]), Expected) : sequence;
        if (sequence < Expected)
        {
            return;
        }

        if (first > Expected)
        {
            AskAgain();
            return;
        }

        Recorded.Add((Boot, first, sequence, Number(fields[3]), string.Join(',', fields[4..])));
        Acknowledge();
    }

    private void Acknowledge()
    {
        lastAck = now;
        if (Acknowledges && Boot is not null)
        {
            Say($"ACK,{id},{Boot},{Expected - 1}");
        }
    }

    private void AskAgain()
    {
        if (lastResend == TimeSpan.MinValue || now - lastResend >= TimeSpan.FromMilliseconds(500))
        {
            lastResend = now;
            Say($"RESEND,{id},{Boot},{Expected}");
        }
    }

    private long LastOf(string boot)
    {
        for (var i = Recorded.Count - 1; i >= 0; i--)
        {
            if (Recorded[i].Boot == boot)
            {
                return Recorded[i].Last;
            }
        }

        return 0;
    }

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}
