using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Examiners;

/// <summary>What was true when an examiner set a scale to a pupil's edges.</summary>
/// <param name="Eye">The eye.</param>
/// <param name="RoomLux">Illuminance of the room in lux.</param>
/// <param name="PupilMillimetres">The pupil's true size as the second edge was set.</param>
/// <param name="SetMillimetres">The size between the two positions set, the hand's scatter included.</param>
public sealed record SettingTruth(Eye Eye, double RoomLux, double PupilMillimetres, double SetMillimetres);

/// <summary>Sets a scale to the edges of a pupil, as a hand does.</summary>
internal sealed class ScaleSetting(Sitting sitting, Chance chance)
{
    private const double SlideMicrometresPerSecond = 7_000;

    /// <summary>Where the middle of a pupil lies on a scale with mark keys, from home; our choice.</summary>
    private const double MiddleFromHome = 9_000;

    private readonly List<SettingTruth> settings = [];

    public IReadOnlyList<SettingTruth> Settings => settings;

    public IEnumerable<ExaminerAct> Measure(Eye eye) =>
        sitting.Instrument.Model.Can(InstrumentAbilities.MarkKeys) ? WithKeys(eye) : FromHome(eye);

    private IEnumerable<ExaminerAct> WithKeys(Eye eye)
    {
        var middle = Home(eye) + (Outward(eye) * (MiddleFromHome + (300 * chance.NextGaussian())));
        var nasal = middle - (Outward(eye) * HalfMicrometres(eye)) + Scatter();
        foreach (var act in Slide(eye, nasal))
        {
            yield return act;
        }

        sitting.Instrument.PressMark(eye, PupilEdge.Nasal);
        yield return Pause(0.4);
        var temporal = middle + (Outward(eye) * HalfMicrometres(eye)) + Scatter();
        foreach (var act in Slide(eye, temporal))
        {
            yield return act;
        }

        sitting.Instrument.PressMark(eye, PupilEdge.Temporal);
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
        sitting.Instrument.SlideTo(eye, micrometres, SlideMicrometresPerSecond);
        yield return new ExaminerAct.Until(() => !sitting.Instrument.IsScaleMoving(eye), TimeSpan.FromSeconds(10));
        yield return Pause(0.7);
    }

    private void Note(Eye eye, double setMicrometres) =>
        settings.Add(
            new SettingTruth(eye, sitting.Instrument.RoomLux, sitting.Millimetres(eye), setMicrometres / 1000)
        );

    private double HalfMicrometres(Eye eye) => sitting.Millimetres(eye) * 500;

    private double Scatter() => sitting.Scenario.Examiner.SettingScatterMillimetres * 1000 * chance.NextGaussian();

    private double Home(Eye eye) => sitting.Instrument.Model.Scales[eye].Home.Value;

    // Which way along the scale the temple lies.
    private double Outward(Eye eye) =>
        sitting.Instrument.Model.Scales[eye].Direction == ScaleDirection.Temporal ? 1 : -1;

    private static ExaminerAct.Wait Pause(double seconds) => new(TimeSpan.FromSeconds(seconds));
}
