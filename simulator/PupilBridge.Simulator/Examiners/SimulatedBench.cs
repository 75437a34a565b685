using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Examiners;

/// <summary>
/// A service technician's hand at an instrument: it puts a disc of known diameter before a scale and sets the scale to its edges, with a
/// hand's scatter. It knows nothing of runs: it measures the disc that it is given. The scatter of the first, second, … setting of a disc
/// by a scale follows from the seed, in whatever order discs are asked for.
/// </summary>
public sealed class SimulatedBench
{
    private readonly SimulatedInstrument instrument;
    private readonly double scatterMillimetres;
    private readonly long seed;
    private readonly double haste;
    private readonly Dictionary<(Eye Eye, double Millimetres), int> times = [];
    private readonly List<SettingTruth> settings = [];
    private ScaleSetting? setting;
    private IEnumerator<ExaminerAct>? acts;
    private TimeSpan actTime;
    private TimeSpan owed;

    /// <summary>A technician at an instrument that is on.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="scatterMillimetres">The standard deviation of setting one edge, in mm, 0 or more.</param>
    /// <param name="seed">The seed of the scatter.</param>
    /// <param name="haste">How many times faster than an examiner the hand is; 1 as in an exam.</param>
    public SimulatedBench(SimulatedInstrument instrument, double scatterMillimetres, long seed, double haste = 1)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentOutOfRangeException.ThrowIfNegative(scatterMillimetres);
        ArgumentOutOfRangeException.ThrowIfLessThan(haste, 1);
        (this.instrument, this.scatterMillimetres, this.seed, this.haste) = (
            instrument,
            scatterMillimetres,
            seed,
            haste
        );
    }

    /// <summary>Whether a disc is being measured.</summary>
    public bool IsBusy => acts is not null;

    /// <summary>What was true at each setting so far.</summary>
    public IReadOnlyList<SettingTruth> Settings => settings;

    /// <summary>Begins to measure a disc.</summary>
    /// <param name="eye">By which scale.</param>
    /// <param name="millimetres">Its diameter, in mm, above 0.</param>
    /// <exception cref="InvalidOperationException">Another one is being measured.</exception>
    public void Put(Eye eye, double millimetres)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(millimetres);
        if (IsBusy)
        {
            throw new InvalidOperationException("A disc is being measured; wait until the scale is home again.");
        }

        var time = times[(eye, millimetres)] = times.GetValueOrDefault((eye, millimetres)) + 1;
        var chance = new Chance(seed, FormattableString.Invariant($"technician {eye} {millimetres:R} {time}"));
        setting = new ScaleSetting(instrument, _ => millimetres, scatterMillimetres, chance, haste);
        acts = setting.Measure(eye).GetEnumerator();
        Next();
    }

    /// <summary>Lets time pass for hand and instrument.</summary>
    /// <param name="time">How much, 0 or more; less than 10 ms is owed to the next call.</param>
    public void Step(TimeSpan time)
    {
        for (owed += time; owed >= SimulatedEyes.Step; owed -= SimulatedEyes.Step)
        {
            instrument.Advance(SimulatedEyes.Step);
            actTime += SimulatedEyes.Step;
            if (acts is not null && IsActOver(acts.Current))
            {
                Next();
            }
        }
    }

    private bool IsActOver(ExaminerAct act) =>
        act switch
        {
            ExaminerAct.Wait wait => actTime >= wait.Time,
            ExaminerAct.Until until => until.IsSo() || actTime >= until.Patience,
            _ => true,
        };

    private void Next()
    {
        actTime = TimeSpan.Zero;
        if (!acts!.MoveNext())
        {
            acts.Dispose();
            acts = null;
            settings.AddRange(setting!.Settings);
        }
    }
}
