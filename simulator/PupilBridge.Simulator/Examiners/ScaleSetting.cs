using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Examiners;

/// <summary>What was true when an examiner set a scale to a pupil's edges.</summary>
/// <param name="Eye">The eye.</param>
/// <param name="RoomLux">Illuminance of the room in lux.</param>
/// <param name="PupilMillimetres">The pupil's true size as the second edge was set.</param>
/// <param name="SetMillimetres">The size between the two positions set, the hand's scatter included.</param>
public sealed record SettingTruth(Eye Eye, double RoomLux, double PupilMillimetres, double SetMillimetres);

/// <summary>Sets a scale to the edges of a pupil, or of a disc in its place, as a hand does.</summary>
/// <param name="instrument">The instrument.</param>
/// <param name="millimetres">How wide what lies before an eye's scale is now, in mm.</param>
/// <param name="scatterMillimetres">The standard deviation of setting one edge, in mm.</param>
/// <param name="chance">The scatter's chance.</param>
/// <param name="haste">How many times faster than an examiner's the hand is; it waits for a scale to rest all the same.</param>
internal sealed class ScaleSetting(
    SimulatedInstrument instrument,
    Func<Eye, double> millimetres,
    double scatterMillimetres,
    Chance chance,
    double haste = 1
)
{
    private const double SlideMicrometresPerSecond = 7_000;

    /// <summary>No pause is shorter: a scale must have come to rest. In seconds.</summary>
    private const double ShortestPause = 0.35;

    /// <summary>Where the middle of a pupil lies on a scale with mark keys, from home; our choice.</summary>
    private const double MiddleFromHome = 9_000;

    private readonly List<SettingTruth> settings = [];

    public IReadOnlyList<SettingTruth> Settings => settings;

    public IEnumerable<ExaminerAct> Measure(Eye eye) =>
        instrument.Model.Can(InstrumentAbilities.MarkKeys) ? WithKeys(eye) : FromHome(eye);

    private IEnumerable<ExaminerAct> WithKeys(Eye eye)
    {
        var middle = Home(eye) + (Outward(eye) * (MiddleFromHome + (300 * chance.NextGaussian())));
        var nasal = middle - (Outward(eye) * HalfMicrometres(eye)) + Scatter();
        foreach (var act in Slide(eye, nasal))
        {
            yield return act;
        }

        instrument.PressMark(eye, PupilEdge.Nasal);
        yield return Pause(0.4);
        var temporal = middle + (Outward(eye) * HalfMicrometres(eye)) + Scatter();
        foreach (var act in Slide(eye, temporal))
        {
            yield return act;
        }

        instrument.PressMark(eye, PupilEdge.Temporal);
        Note(eye, Outward(eye) * (temporal - nasal));
        foreach (var act in GoHome(eye))
        {
            yield return act;
        }
    }

    // Without keys the whole instrument is moved until the nasal edge stands at home; then the scale slides outward.
    private IEnumerable<ExaminerAct> FromHome(Eye eye)
    {
        yield return Pause(1.5);
        var size = (2 * HalfMicrometres(eye)) + Scatter() + Scatter();
        foreach (var act in Slide(eye, Home(eye) + (Outward(eye) * size)))
        {
            yield return act;
        }

        Note(eye, size);
        foreach (var act in GoHome(eye))
        {
            yield return act;
        }
    }

    private IEnumerable<ExaminerAct> GoHome(Eye eye)
    {
        yield return Pause(0.6);
        foreach (var act in Slide(eye, Home(eye)))
        {
            yield return act;
        }
    }

    private IEnumerable<ExaminerAct> Slide(Eye eye, double micrometres)
    {
        instrument.SlideTo(eye, micrometres, SlideMicrometresPerSecond * haste);
        yield return new ExaminerAct.Until(() => !instrument.IsScaleMoving(eye), TimeSpan.FromSeconds(10));
        yield return Pause(0.7);
    }

    private void Note(Eye eye, double setMicrometres) =>
        settings.Add(new SettingTruth(eye, instrument.RoomLux, millimetres(eye), setMicrometres / 1000));

    private double HalfMicrometres(Eye eye) => millimetres(eye) * 500;

    private double Scatter() => scatterMillimetres * 1000 * chance.NextGaussian();

    private double Home(Eye eye) => instrument.Model.Scales[eye].Home.Value;

    // Which way along the scale the temple lies.
    private double Outward(Eye eye) => instrument.Model.Scales[eye].Direction == ScaleDirection.Temporal ? 1 : -1;

    private ExaminerAct.Wait Pause(double seconds) =>
        new(TimeSpan.FromSeconds(Math.Max(seconds / haste, Math.Min(seconds, ShortestPause))));
}
