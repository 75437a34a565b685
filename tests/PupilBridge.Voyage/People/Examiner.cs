using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Voyage.Runs;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.People;

/// <summary>
/// Examines one person after the other at one instrument, by a script at life's pace: welcome, sizes in bright light, minutes in the
/// dark, sizes in dim light, the lights, ready. What is judged is given to the desk, and the script goes on whether or not it answers.
/// </summary>
internal sealed class Examiner
{
    private readonly Lane lane;
    private readonly DeskClerk clerk;
    private readonly Chance chance;
    private readonly Hands hands;
    private readonly int exams;
    private readonly int moreWaits;
    private readonly IEnumerator<Pause> script;
    private Pause pause;
    private TimeSpan since;

    public Examiner(Lane lane, DeskClerk clerk, Chance chance, VoyagePlan plan)
    {
        (this.lane, this.clerk, this.chance) = (lane, clerk, chance);
        (exams, moreWaits) = (plan.ExamsEach, plan.MoreWaits);
        hands = new Hands(lane.Instrument, chance);
        script = Day().GetEnumerator();
        script.MoveNext();
        pause = script.Current;
    }

    /// <summary>Whether all exams are done.</summary>
    public bool IsDone { get; private set; }

    /// <summary>How many exams were done.</summary>
    public int Done { get; private set; }

    /// <summary>Virtual time with an exam in progress: from welcome to the end of its script.</summary>
    public TimeSpan Examining { get; private set; }

    /// <summary>When the script goes on at the latest.</summary>
    public TimeSpan NextDue => IsDone ? TimeSpan.MaxValue : since + pause.Time;

    public void Step(TimeSpan now)
    {
        while (!IsDone && (now >= since + pause.Time || pause.Until?.Invoke() == true))
        {
            since = now;
            Moment = now;
            IsDone = !script.MoveNext();
            pause = script.Current;
            lane.Wake();
        }
    }

    private TimeSpan Moment { get; set; }

    private IEnumerable<Pause> Day()
    {
        yield return Pause.Of(chance.NextBetween(5, 60));
        for (var i = 0; i < exams; i++)
        {
            var from = Moment;
            foreach (var step in Exam())
                yield return step;
            Done++;
            Examining += Moment - from;
            yield return Pause.Of(chance.NextBetween(10, 40));
            clerk.LookAfter();
            clerk.Erase();
            yield return Pause.Of(chance.NextBetween(5, 40));
        }
    }

    private IEnumerable<Pause> Exam()
    {
        var instrument = lane.Instrument;
        var eyes = ScriptedEyes.Of(chance);
        var sensor =
            instrument.Model.Can(InstrumentAbilities.LightSensor)
            || instrument.Model.Can(InstrumentAbilities.LightSwitch);
        instrument.SwitchOn();
        clerk.Welcome();
        yield return Pause.Of(chance.NextBetween(30, 120));
        instrument.SetRoom(300);
        if (!sensor)
            clerk.Say(e => e.Room("bright"));
        foreach (var step in hands.Turn(InstrumentMode.Measure).Concat(Sizes(eyes.Bright)))
            yield return step;
        foreach (var eye in EyeFacts.Both)
            clerk.Judge($"shape {Name(eye)} {(eyes.Round || eye == Eye.Left ? "round" : "not-round")}");
        instrument.SetRoom(2);
        foreach (var step in Dark().Concat(Sizes(eyes.Dim)))
            yield return step;
        if (chance.Happens(0.3))
            clerk.Note();
        clerk.EraseTooEarly();
        foreach (var step in Lights(eyes))
            yield return step;
        if (chance.Happens(0.2))
            clerk.Withdraw();
        yield return Pause.Of(chance.NextBetween(5, 60));
        clerk.Ready();
        foreach (var step in hands.Turn(InstrumentMode.Idle))
            yield return step;
        yield return Pause.Of(2);
        if (chance.Happens(0.15) && instrument.Model.Can(InstrumentAbilities.SwitchOff))
            clerk.SwitchOff();
    }

    // In the dark until the pupils are wide: the longest part of an exam, in which the instrument only keeps its line.
    private IEnumerable<Pause> Dark()
    {
        yield return Pause.Of(chance.NextBetween(300, 900));
        for (var i = 0; i < moreWaits; i++)
        {
            clerk.Note();
            yield return Pause.Of(chance.NextBetween(240, 540));
        }
    }

    private IEnumerable<Pause> Sizes(PerEye<double> millimetres) =>
        hands.Measure(Eye.Right, millimetres.Right).Concat(hands.Measure(Eye.Left, millimetres.Left));

    private IEnumerable<Pause> Lights(ScriptedEyes eyes)
    {
        foreach (var step in hands.Turn(InstrumentMode.Sequence))
            yield return step;
        yield return hands.Through(Block.Direct);
        foreach (var eye in EyeFacts.Both)
            clerk.Judge($"direct {Name(eye)} {eyes.Direct[eye]}");
        yield return hands.Through(Block.SwingShort);
        clerk.Judge(eyes.Worse is { } shortly ? $"swing short worse {Name(shortly)}" : "swing short alike");
        yield return hands.Through(Block.SwingLong);
        clerk.Judge(eyes.Worse is { } longer ? $"swing long worse {Name(longer)}" : "swing long alike");
        if (eyes.Direct.Right > 1 && eyes.Direct.Left > 1)
            yield break;
        foreach (var step in hands.Turn(InstrumentMode.Hold, Block.Near))
            yield return step;
        lane.Instrument.Fixate(near: true);
        yield return Pause.Of(5);
        foreach (var eye in EyeFacts.Both)
            clerk.Judge($"near {Name(eye)} 3");
        lane.Instrument.Fixate(near: false);
        yield return Pause.Of(1);
    }

    private static string Name(Eye eye) => eye == Eye.Right ? "OD" : "OS";
}
