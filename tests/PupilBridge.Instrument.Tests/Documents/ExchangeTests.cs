using System.Globalization;
using PupilBridge.Instrument.Tests.Links;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>The page's exchange from power-on to power-off is what the two links really do, line by line.</summary>
public class ExchangeTests
{
    private static readonly InstrumentIdentity Shown = Known.Identity with
    {
        Stops =
        [
            new DialStop(1, InstrumentMode.Measure, Block.None),
            new DialStop(2, InstrumentMode.Idle, Block.None),
            new DialStop(3, InstrumentMode.Sequence, Block.None),
            new DialStop(4, InstrumentMode.Hold, Block.Direct),
        ],
        Scales = new PerEye<ScaleDescription>
        {
            Right = new(new(2_000), ScaleDirection.Temporal, new(10), new(0), new(30_000)),
            Left = new(new(2_000), ScaleDirection.Temporal, new(10), new(0), new(30_000)),
        },
    };

    [Fact]
    public void The_exchange_is_what_the_links_say()
    {
        var lines = ProtocolDocument.Lines("exchange");
        var directions = lines
            .Select(line => line.Split(' ', 3))
            .Where(parts => parts[1] == "--")
            .Select(parts => (TimeSpan.FromSeconds(double.Parse(parts[0], CultureInfo.InvariantCulture)), parts[2]));
        var played = new ExchangeReplay(Shown).Play(directions).Split('\n');
        // For whoever changes the protocol: what the page must say now.
        if (!played.SequenceEqual(lines))
            File.WriteAllLines(Path.Combine(AppContext.BaseDirectory, "exchange.actual.txt"), played);
        Assert.Equal(played, lines);
    }
}
