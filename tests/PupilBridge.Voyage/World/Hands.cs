using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Voyage.World;

/// <summary>What a script waits for before it goes on.</summary>
/// <param name="Time">For how long at most.</param>
/// <param name="Until">Or until this is so; null for only the time.</param>
internal readonly record struct Pause(TimeSpan Time, Func<bool>? Until = null)
{
    public static Pause Of(double seconds) => new(TimeSpan.FromSeconds(seconds));
}

/// <summary>The pupils that a script shows: sizes and answers of a person without a trouble, or with one.</summary>
/// <param name="Bright">Size in bright light in mm, right and left.</param>
/// <param name="Dim">Size in dim light in mm.</param>
/// <param name="Direct">Direct grade, 0 to 4.</param>
/// <param name="Worse">The eye with an afferent defect; null for none.</param>
/// <param name="Round">Whether both are round.</param>
internal sealed record ScriptedEyes(
    PerEye<double> Bright,
    PerEye<double> Dim,
    PerEye<int> Direct,
    Eye? Worse,
    bool Round
)
{
    /// <summary>Somebody: most without a trouble.</summary>
    public static ScriptedEyes Of(Chance chance)
    {
        var size = chance.NextBetween(2.8, 4.6);
        var eyes = new ScriptedEyes(Both(size), Both(size + chance.NextBetween(1, 2.6)), Both(4), null, true);
        var eye = chance.Happens(0.5) ? Eye.Right : Eye.Left;
        return chance.NextUnit() switch
        {
            < 0.55 => eyes,
            < 0.70 => eyes with { Worse = eye, Direct = eyes.Direct.With(eye, chance.NextInteger(1, 3)) },
            < 0.85 => eyes with { Dim = eyes.Dim.With(eye, eyes.Dim[eye] + chance.NextBetween(0.5, 1.2)) },
            < 0.93 => eyes with { Direct = Both(chance.NextInteger(0, 2)) },
            _ => eyes with { Round = false },
        };
    }

    private static PerEye<T> Both<T>(T value) => new() { Right = value, Left = value };
}

/// <summary>A hand at an instrument: sets scales to a size, turns the dial, waits for what the instrument does of itself.</summary>
internal sealed class Hands(SimulatedInstrument instrument, Chance chance)
{
    private const double SlideMicrometresPerSecond = 7_000;
    private const double MiddleFromHome = 9_000;

    public IEnumerable<Pause> Turn(InstrumentMode mode, Block block = Block.None)
    {
        if (instrument.Model.Stop(mode, block) is not { } stop)
            yield break;
        instrument.TurnDialTo(stop);
        yield return new Pause(TimeSpan.FromSeconds(5), () => !instrument.IsDialTurning);
    }

    /// <summary>Sets a scale to both edges, with or without mark keys, and takes it home.</summary>
    public IEnumerable<Pause> Measure(Eye eye, double millimetres)
    {
        var scale = instrument.Model.Scales[eye];
        var outward = scale.Direction == ScaleDirection.Temporal ? 1 : -1;
        var size = (millimetres * 1000) + (80 * chance.NextGaussian());
        if (instrument.Model.Can(InstrumentAbilities.MarkKeys))
        {
            var middle = scale.Home.Value + (outward * MiddleFromHome);
            yield return Slide(eye, middle - (outward * size / 2));
            yield return Pause.Of(0.7);
            instrument.PressMark(eye, PupilEdge.Nasal);
            yield return Slide(eye, middle + (outward * size / 2));
            yield return Pause.Of(0.7);
            instrument.PressMark(eye, PupilEdge.Temporal);
        }
        else
        {
            yield return Pause.Of(1.5);
            yield return Slide(eye, scale.Home.Value + (outward * size));
        }

        yield return Pause.Of(1);
        yield return Slide(eye, scale.Home.Value);
        yield return Pause.Of(0.7);
    }

    /// <summary>Waits until the instrument itself has come to the end of a block.</summary>
    public Pause Through(Block block) =>
        new(TimeSpan.FromSeconds(60), () => instrument.Block != block || instrument.IsSequenceThrough);

    private Pause Slide(Eye eye, double micrometres)
    {
        instrument.SlideTo(eye, micrometres, SlideMicrometresPerSecond);
        return new Pause(TimeSpan.FromSeconds(10), () => !instrument.IsScaleMoving(eye));
    }
}
