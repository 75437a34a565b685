using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>What hands do at a served instrument, read from lines such as <c>dial measure</c> or <c>slide R 30000</c>.</summary>
/// <param name="served">The instrument.</param>
/// <param name="output">Says what was not understood.</param>
internal sealed class HandLines(ServedInstrument served, TextWriter output)
{
    /// <summary>What can be said, for help.</summary>
    public const string Words =
        "dial MODE [BLOCK], slide R|L UM, mark R|L N|T, room LUX, fix near|far, lens in|out, keys COUNT, off, on";

    /// <summary>A slow hand, in micrometres a second; our choice.</summary>
    private const double Speed = 4_000;

    /// <summary>Does what each line says, until there are no more.</summary>
    /// <param name="input">The lines.</param>
    /// <param name="stop">Stops reading.</param>
    /// <returns>Done when the input ends.</returns>
    public async Task ActAsync(TextReader input, CancellationToken stop)
    {
        while (await input.ReadLineAsync(stop).ConfigureAwait(false) is { } line)
        {
            var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            if (words.Length > 0 && !served.With(instrument => Do(instrument, words)))
            {
                await output
                    .WriteLineAsync($"'{line}' is nothing that hands can do. There are: {Words}.")
                    .ConfigureAwait(false);
            }
        }
    }

    /// <summary>Does what one line says.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="words">The words of the line.</param>
    /// <returns>False if it was not understood, or the instrument has no such part.</returns>
    internal static bool Do(SimulatedInstrument instrument, string[] words)
    {
        switch (words)
        {
            case ["dial", var mode]:
                return Turn(instrument, mode, "none");
            case ["dial", var mode, var block]:
                return Turn(instrument, mode, block);
            case ["slide", var eye, var to] when EyeOf(eye) is { } side && Number(to) is { } micrometres:
                instrument.SlideTo(side, micrometres, Speed);
                return true;
            case ["mark", var eye, "N" or "T"] when EyeOf(eye) is { } side:
                instrument.PressMark(side, words[2] == "N" ? PupilEdge.Nasal : PupilEdge.Temporal);
                return true;
            case ["room", var lux] when Number(lux) is { } value:
                instrument.SetRoom(value);
                return true;
            case ["fix", "near" or "far"]:
                instrument.Fixate(words[1] == "near");
                return true;
            case ["lens", "in" or "out"]:
                instrument.MoveLens(words[1] == "in");
                return true;
            case ["keys", var count] when Number(count) is { } times && times <= 100_000:
                for (var i = 0; i < times; i++)
                {
                    instrument.PressMark(Eye.Right, PupilEdge.Nasal);
                }

                return true;
            case ["off"]:
                instrument.SwitchOff();
                return true;
            case ["on"]:
                instrument.SwitchOn();
                return true;
            default:
                return false;
        }
    }

    private static bool Turn(SimulatedInstrument instrument, string mode, string block)
    {
        if (
            !Enum.TryParse<InstrumentMode>(mode, ignoreCase: true, out var wanted)
            || !Enum.TryParse<Block>(block.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out var run)
            || instrument.Model.Stop(wanted, run) is not { } stop
        )
        {
            return false;
        }

        instrument.TurnDialTo(stop);
        return true;
    }

    private static Eye? EyeOf(string word) =>
        word switch
        {
            "R" => Eye.Right,
            "L" => Eye.Left,
            _ => null,
        };

    private static double? Number(string word) =>
        double.TryParse(word, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
