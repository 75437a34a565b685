using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>Discs as they are typed to the simulator, one a line: <c>OD 4.002</c>. Each is measured as a technician does.</summary>
/// <param name="served">The instrument.</param>
/// <param name="technician">The technician.</param>
/// <param name="output">Where it says what was done.</param>
internal sealed class DiscLines(ServedInstrument served, SimulatedBench technician, TextWriter output)
{
    /// <summary>Measures what comes, until there is no more or it is stopped.</summary>
    public async Task MeasureAsync(TextReader input, CancellationToken stop)
    {
        // The standard input's own asynchronous reading waits on the thread that asks, and with it the whole instrument would.
        while (await Task.Run(input.ReadLine, stop).WaitAsync(stop).ConfigureAwait(false) is { } line)
        {
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            if (Read(line) is not var (eye, millimetres))
            {
                await output
                    .WriteLineAsync($"'{line}' is no disc: write OD or OS and its diameter, such as OD 4.002.")
                    .ConfigureAwait(false);
                continue;
            }

            await served.MeasureDiscAsync(technician, eye, millimetres, stop).ConfigureAwait(false);
            await output
                .WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{line.Trim()}: measured"))
                .ConfigureAwait(false);
        }
    }

    /// <summary>Reads one line; null if it is no disc.</summary>
    internal static (Eye Eye, double Millimetres)? Read(string line) =>
        line.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var eye, var size]
        && (eye.ToUpperInvariant() is "OD" or "OS")
        && double.TryParse(size, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var millimetres)
        && millimetres is > 0 and <= 20
            ? (eye.Equals("OD", StringComparison.OrdinalIgnoreCase) ? Eye.Right : Eye.Left, millimetres)
            : null;
}
