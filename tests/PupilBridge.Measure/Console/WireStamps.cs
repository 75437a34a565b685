using System.Globalization;
using System.Text;
using PupilBridge.Browser.Lanes;

namespace PupilBridge.Measure.Console;

/// <summary>When an instrument wrote each of its lines, and how long it took until a lane's page had been painted with it.</summary>
internal sealed class WireStamps(TimeProvider time)
{
    private readonly Dictionary<long, double> events = [];
    private readonly List<(double At, string Eye, string Shown)> positions = [];
    private readonly StringBuilder rest = new();
    private readonly Lock gate = new();

    /// <summary>Notes the lines in what goes onto the line just now.</summary>
    public void Note(ReadOnlyMemory<byte> bytes)
    {
        var now = PaintWatch.Milliseconds(time);
        lock (gate)
        {
            rest.Append(Encoding.ASCII.GetString(bytes.Span));
            var lines = rest.ToString().Split('\n');
            rest.Clear().Append(lines[^1]);
            foreach (var line in lines[..^1])
                Note(line, now);
        }
    }

    /// <summary>For each event, from the write of its line to the first frame that knows of it, in ms.</summary>
    /// <param name="frames">What the page showed.</param>
    public IEnumerable<double> Events(IReadOnlyList<PaintedFrame> frames)
    {
        lock (gate)
        {
            return
            [
                .. events
                    .Where(e => e.Value > frames[0].At && e.Key <= frames[^1].Received)
                    .Select(e => frames.First(f => f.Received >= e.Key).At - e.Value),
            ];
        }
    }

    /// <summary>For each live position that came onto the page before the next one overtook it, the same.</summary>
    /// <param name="frames">What the page showed.</param>
    public IEnumerable<double> Positions(IReadOnlyList<PaintedFrame> frames)
    {
        lock (gate)
        {
            var found = new List<double>();
            foreach (var (at, eye, shown) in positions)
            {
                var first = frames.FirstOrDefault(f =>
                    f.At > at && (eye == "R" ? f.Right : f.Left).Contains(shown, StringComparison.Ordinal)
                );
                // A scale slid back may stand at the same place again much later; a screen skips what it cannot show in time.
                if (first is not null && first.At - at < 1_000)
                    found.Add(first.At - at);
            }

            return found;
        }
    }

    /// <summary>How many live positions were written.</summary>
    public int PositionsWritten
    {
        get
        {
            lock (gate)
                return positions.Count;
        }
    }

    private void Note(string line, double now)
    {
        var fields = line.Split('*')[0].Split(',');
        if (fields is ["EV", _, var sequence, ..])
            events.TryAdd(long.Parse(sequence, CultureInfo.InvariantCulture), now);
        else if (fields is ["POS", var eye, var micrometres, ..])
            positions.Add(
                (
                    now,
                    eye,
                    (int.Parse(micrometres, CultureInfo.InvariantCulture) / 1000.0).ToString(
                        "F2",
                        CultureInfo.InvariantCulture
                    )
                )
            );
    }
}
