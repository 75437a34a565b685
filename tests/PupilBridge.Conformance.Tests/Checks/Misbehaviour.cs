using System.Globalization;
using PupilBridge.Conformance.Steps;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>
/// What a wrong firmware would do, as a change of whole lines in front of a right one. The default changes nothing. Each counts
/// how often it really changed something: a fault that never happened would prove nothing.
/// </summary>
internal sealed class Misbehaviour
{
    public Func<string, TimeSpan, IEnumerable<string>> ChangesToHost { get; init; } = (line, _) => [line];

    public Func<string, TimeSpan, IEnumerable<string>> ChangesFromHost { get; init; } = (line, _) => [line];

    /// <summary>Whether the end of a read is taken for the end of a line.</summary>
    public bool EndsLinesAtReads { get; init; }

    public Action<SimulatedInstrument, TimeSpan> Act { get; init; } = (_, _) => { };

    public int Changed { get; private set; }

    public IEnumerable<string> ToHost(string line, TimeSpan now) => Counted(line, [.. ChangesToHost(line, now)]);

    public IEnumerable<string> FromHost(string line, TimeSpan now) => Counted(line, [.. ChangesFromHost(line, now)]);

    /// <summary>A change of the bodies of an instrument's lines of one type; the check is made right again.</summary>
    public static Misbehaviour OfInstrument(string type, Func<string[], string[]?> change) =>
        new() { ChangesToHost = (line, _) => Changing(line, type, change) };

    /// <summary>A change of what the firmware takes a host's lines for.</summary>
    public static Misbehaviour OfHearing(string type, Func<string[], string[]?> change) =>
        new() { ChangesFromHost = (line, _) => Changing(line, type, change) };

    public static string Whole(params string[] fields) => RawHost.WithCheck(string.Join(',', fields));

    public static string[] Fields(string line) => line.TrimEnd('\r').Split('*')[0].Split(',');

    public static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    public static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);

    private static IEnumerable<string> Changing(string line, string type, Func<string[], string[]?> change)
    {
        var fields = Fields(line);
        // Only what is whole; a line that was broken on purpose stays so.
        if (fields[0] != type || line.TrimEnd('\r') != Whole(fields))
        {
            return [line];
        }

        return change(fields) is { } changed ? [Whole(changed)] : [];
    }

    private string[] Counted(string line, string[] changed)
    {
        Changed += changed is [var same] && same == line ? 0 : 1;
        return changed;
    }
}
