using System.Text.RegularExpressions;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Tests.Links.Joined;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>The page's two state diagrams name the code's states, and show every way that the code was seen to go.</summary>
public class DiagramTests
{
    [Fact]
    public void The_hosts_diagram_has_the_codes_states() => AssertStates<HostLinkPhase>(Diagram(0));

    [Fact]
    public void The_instruments_diagram_has_the_codes_states() => AssertStates<InstrumentLinkPhase>(Diagram(1));

    [Fact]
    public void Every_way_that_was_seen_is_drawn()
    {
        var host = new HashSet<(string, string)>();
        var instrument = new HashSet<(string, string)>();
        for (var seed = 101; seed < 121; seed++)
        {
            var world = new JoinedWorld(seed, capacity: 20);
            world.Run(seconds: 60, faultRate: 0.05, eventsPerSecond: 3, mishaps: true);
            host.UnionWith(world.HostWays.Select(Named));
            instrument.UnionWith(world.InstrumentWays.Select(Named));
        }

        Compare(Diagram(0), host, leastSeen: 11);
        Compare(Diagram(1), instrument, leastSeen: 15);
    }

    private static (string, string) Named<T>((T From, T To) way)
        where T : struct, Enum => (way.From.ToString(), way.To.ToString());

    private static void Compare(HashSet<(string, string)> drawn, HashSet<(string, string)> seen, int leastSeen)
    {
        Assert.Empty(seen.Except(drawn));
        Assert.True(seen.Count >= leastSeen, $"Only {seen.Count} ways were seen: {string.Join(' ', seen)}");
    }

    private static HashSet<(string, string)> Diagram(int index) =>
        [
            .. Regex
                .Matches(ProtocolDocument.Blocks("mermaid")[index], @"^ *(\S+) --> (\w+)", RegexOptions.Multiline)
                .Select(m => (m.Groups[1].Value, m.Groups[2].Value)),
        ];

    private static void AssertStates<T>(HashSet<(string From, string To)> drawn)
        where T : struct, Enum
    {
        Assert.Equal(Enum.GetNames<T>().Order(), drawn.Select(d => d.To).Distinct().Order());
        Assert.Equal(Enum.GetNames<T>().Append("[*]").Order(), drawn.Select(d => d.From).Distinct().Order());
        Assert.Contains(("[*]", default(T).ToString()), drawn);
    }
}
