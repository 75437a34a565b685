using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Eyes;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.Examiners;

/// <summary>
/// One whole exam in virtual time: a scenario's person and examiner at an instrument. It goes in lock step: when the
/// examiner is about to speak, time stands still for eyes and instrument until <see cref="Said"/> is called, so that
/// whoever records may first wait until all events so far are recorded, and the same seed always gives the same exam.
/// </summary>
public sealed class SimulatedExam
{
    private readonly Sitting sitting;
    private readonly ExamScript script;
    private readonly IEnumerator<ExaminerAct> acts;
    private readonly List<SpokenJudgement> spoken = [];
    private TimeSpan actTime;
    private TimeSpan owed;

    /// <summary>Seats a person and an examiner at an instrument that is on.</summary>
    /// <param name="scenario">Who.</param>
    /// <param name="instrument">The instrument.</param>
    public SimulatedExam(Scenario scenario, SimulatedInstrument instrument)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(instrument);
        Scenario = scenario;
        Instrument = instrument;
        sitting = new Sitting(scenario, instrument);
        script = new ExamScript(sitting);
        acts = script.Examine().GetEnumerator();
        Next();
    }

    /// <summary>
    /// Whether eyes and instrument go on while the examiner waits to be heard, as in life, in place of the lock step. The same seed
    /// then no longer gives the same exam. The default is false.
    /// </summary>
    public bool GoesOnWhileSpeaking { get; init; }

    /// <summary>Who is examined by whom.</summary>
    public Scenario Scenario { get; }

    /// <summary>The instrument.</summary>
    public SimulatedInstrument Instrument { get; }

    /// <summary>What the examiner is about to say; null while nothing is to be said. The script stands still until it is said.</summary>
    public SpokenJudgement? AboutToSay { get; private set; }

    /// <summary>Whether the examiner is through.</summary>
    public bool IsFinished { get; private set; }

    /// <summary>Virtual time since the beginning.</summary>
    public TimeSpan Elapsed { get; private set; }

    /// <summary>All that was said.</summary>
    public IReadOnlyList<SpokenJudgement> Spoken => spoken;

    /// <summary>What was true at each setting of a scale.</summary>
    public IReadOnlyList<SettingTruth> Settings => script.Settings;

    /// <summary>What was seen at each stimulus.</summary>
    public IReadOnlyList<WatchedStimulus> Stimuli => sitting.Watch.Stimuli;

    /// <summary>Lets virtual time pass, until the examiner is about to speak. After the end, the instrument goes on alone.</summary>
    /// <param name="time">How much at most, 0 or more; less than 10 ms is owed to the next call.</param>
    public void Step(TimeSpan time)
    {
        for (owed += time; owed >= SimulatedEyes.Step && !StandsStill; owed -= SimulatedEyes.Step)
        {
            sitting.StepOnce();
            Elapsed += SimulatedEyes.Step;
            actTime += SimulatedEyes.Step;
            if (!IsFinished && AboutToSay is null && IsActOver())
            {
                Next();
            }
        }

        // Time in which the examiner waited to speak is not made up for.
        owed = StandsStill ? TimeSpan.Zero : owed;
    }

    private bool StandsStill => AboutToSay is not null && !GoesOnWhileSpeaking;

    /// <summary>The judgement was taken down: time goes on.</summary>
    /// <exception cref="InvalidOperationException">Nothing was about to be said.</exception>
    public void Said()
    {
        spoken.Add(AboutToSay ?? throw new InvalidOperationException("The examiner was not about to say anything."));
        AboutToSay = null;
        Next();
    }

    private bool IsActOver() =>
        acts.Current switch
        {
            ExaminerAct.Wait wait => actTime >= wait.Time,
            ExaminerAct.Until until => until.IsSo() || actTime >= until.Patience,
            _ => false,
        };

    private void Next()
    {
        actTime = TimeSpan.Zero;
        if (!acts.MoveNext())
        {
            IsFinished = true;
            return;
        }

        AboutToSay = (acts.Current as ExaminerAct.Say)?.Judgement;
    }
}
