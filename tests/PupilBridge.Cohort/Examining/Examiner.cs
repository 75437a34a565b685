using PupilBridge.Cohort.Population;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Examining;

/// <summary>Examines one person: the sizes, what is looked at, the light responses, and near where it is due.</summary>
internal sealed partial class Examiner
{
    private readonly Person person;
    private readonly HumanScatter scatter;
    private readonly Chance chance;
    private readonly Looking looking;
    private readonly Recorder record;
    private readonly Chair chair;
    private readonly HashSet<ExamStep> leftOut = [];
    private readonly Dictionary<Eye, Grade> direct = [];
    private DensityBracket? bracket;
    private BellGrading? bell;

    private Examiner(Person person, PatientTruth truth, HumanScatter scatter, string purpose, long clock)
    {
        (this.person, this.scatter) = (person, scatter);
        chance = new Chance(person.Seed, purpose);
        looking = new Looking(scatter, chance);
        record = new Recorder(clock);
        chair = new Chair(truth with { UnrestMillimetres = scatter.UnrestMillimetres }, record, person.Seed);
    }

    private const long Today = 100L * 86_400_000;

    public static DoneExam Examine(Person person, HumanScatter scatter)
    {
        var examiner = new Examiner(person, person.Eyes, scatter, "examiner", Today);
        examiner.All();
        return examiner.Done();
    }

    /// <summary>An earlier visit, of sizes alone, a month ago; null if there was none.</summary>
    public static DoneExam? ExamineBefore(Person person, HumanScatter scatter)
    {
        if (person.Before is not { } before)
            return null;
        var examiner = new Examiner(
            person with
            {
                LightsSwapped = false,
                NearSlip = NearSlip.None,
                Dark = DarkPlan.Settled,
            },
            before,
            scatter,
            "examiner before",
            Today - (30L * 86_400_000)
        );
        examiner.Begin(person.BrightLuxBefore);
        examiner.BrightSizes(person.BrightLuxBefore);
        examiner.DimSizes();
        examiner.record.MakeReady();
        var done = examiner.Done();
        // A journal of its own has the same numbers; the exam is another one.
        return done with { Exam = done.Exam with { Id = new(done.Exam.Id.Value + 1_000_000) } };
    }

    private void All()
    {
        Begin(Rooms.BrightLux);
        Status();
        if (!LeavesOut(ExamStep.SizesBright))
            BrightSizes(Rooms.BrightLux);
        var hasDim = !LeavesOut(ExamStep.SizesDim);
        if (hasDim)
            DimSizes();
        else
            record.Say(InstrumentEvent.RoomMeasured(default, 1000 * Rooms.DimLux));
        if (!LeavesOut(ExamStep.Shape))
            Shapes();
        if (hasDim)
            SlowOnes();
        // Whatever the lamps of the room were at the sizes, it is dim now.
        chair.Show(Scene.Room(Rooms.DimLux));
        chair.Settle(25_000);
        if (!LeavesOut(ExamStep.Direct))
            Direct();
        Swinging();
        NearIfDue();
        record.Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Idle, Block.None, ModeCause.Dial));
        record.Pass(500);
        record.MakeReady();
    }

    private void Begin(int lux)
    {
        record.Say(InstrumentEvent.RoomMeasured(default, 1000 * lux));
        record.Say(InstrumentEvent.FixationChanged(default, FixationDistance.Far));
        record.Open($"Q-{1001 + person.Number}");
        record.Pass(1_000);
        record.Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Measure, Block.None, ModeCause.Dial));
        record.Pass(500);
    }

    private void Status()
    {
        if (chance.Happens(scatter.StatusNotAsked))
            return;
        var isTold = !chance.Happens(scatter.StatusNotTold);
        foreach (var eye in EyeFacts.Both)
            record.Enter(eye, isTold ? person.Conditions[eye] : EyeConditions.None);
    }

    private void BrightSizes(int lux)
    {
        chair.Show(Scene.Room(person.LightsSwapped ? Rooms.DimLux : lux));
        chair.Settle(20_000);
        Measure(Eye.Right);
        Measure(Eye.Left);
    }

    private void DimSizes()
    {
        var isNear = BeginNear(NearSlip.DimSizes);
        record.Say(InstrumentEvent.RoomMeasured(default, 1000 * Rooms.DimLux));
        chair.Show(Scene.Room(person.LightsSwapped ? Rooms.BrightLux : Rooms.DimLux) with { NearTarget = isNear });
        switch (person.Dark)
        {
            case DarkPlan.Unequal:
                chair.Pass(3_000);
                Measure(Eye.Right);
                chair.Pass(8_000);
                Measure(Eye.Left);
                EndNear(isNear);
                return;
            case DarkPlan.WithLag: // right at 4 s, left at 6 s; right at 15 s, left at 17 s
                chair.Pass(3_000);
                Measure(Eye.Right);
                Measure(Eye.Left);
                chair.Pass(7_000);
                Measure(Eye.Right);
                Measure(Eye.Left);
                break;
        }

        chair.Settle(person.Dark == DarkPlan.TwoMinutes ? 125_000 : 35_000);
        Measure(Eye.Right);
        Measure(Eye.Left);
        EndNear(isNear);
    }

    // Both edges are set one second apart; the second one decides the size that is set.
    private void Measure(Eye eye)
    {
        const int nasal = 5_000;
        record.Say(InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Nasal, new(nasal)));
        chair.Pass(1_000);
        var size = chair.Millimetres(eye);
        size += scatter.EdgeMillimetres * (chance.NextGaussian() + chance.NextGaussian());
        var temporal = nasal + (10 * (int)Math.Round(100 * size));
        record.Say(InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Temporal, new(temporal)));
        chair.Pass(1_000);
    }

    private void Shapes()
    {
        foreach (var eye in EyeFacts.Both)
            record.Enter(new ShapeJudgement(eye, looking.Shape(person.Eyes.Eyes[eye].Shape)));
    }

    private void SlowOnes()
    {
        foreach (var eye in EyeFacts.Both)
        {
            var isSlow = person.Eyes.Eyes[eye].DilationTimes > 1;
            if (chance.Happens(isSlow ? scatter.SlowNoticed : scatter.SlowInvented))
                record.Enter(new SlowToDilate(eye));
        }
    }

    // Whether the patient truly looks near now; the record knows of it where somebody noticed.
    private bool BeginNear(NearSlip where)
    {
        if (person.NearSlip != where)
            return false;
        chair.Near(true);
        if (!chance.Happens(scatter.NearUnnoticed))
            record.Say(InstrumentEvent.FixationChanged(default, FixationDistance.Near));
        return true;
    }

    private void EndNear(bool wasNear)
    {
        if (!wasNear)
            return;
        chair.Near(false);
        record.Say(InstrumentEvent.FixationChanged(default, FixationDistance.Far));
    }

    private bool LeavesOut(ExamStep step)
    {
        if (!chance.Happens(scatter.StepSkipped))
            return false;
        leftOut.Add(step);
        return true;
    }

    private DoneExam Done() =>
        new()
        {
            Exam = record.Fold(),
            Bracket = bracket,
            Bell = bell,
            LeftOut = leftOut,
            OffTime = chair
                .Burns.Where(b => Math.Abs(b.Milliseconds - b.NominalMilliseconds) > 0.05 * b.NominalMilliseconds)
                .Select(b => b.Block)
                .ToHashSet(),
        };
}
