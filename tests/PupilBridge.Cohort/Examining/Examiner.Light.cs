using PupilBridge.Cohort.Population;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Examining;

/// <content>Light, swinging and near.</content>
internal sealed partial class Examiner
{
    private const int Alternations = 4;

    private void Hold(Block block)
    {
        record.Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Hold, block, ModeCause.Dial));
        chair.Pass(500);
    }

    private void Direct()
    {
        Hold(Block.Direct);
        var isNear = BeginNear(NearSlip.Direct);
        foreach (var eye in EyeFacts.Both)
        {
            for (var i = 0; i < 3; i++)
            {
                Lamp(Block.Direct, eye, 1_000, isFaulty: i == 1 && eye == Eye.Left);
                chair.Pass(3_000);
            }
        }

        // The program counts no stimulus that was cut short, and asks for another one.
        if (IsCutShort(0))
        {
            Lamp(Block.Direct, Eye.Left, 1_000, isFaulty: false);
            chair.Pass(3_000);
        }

        foreach (var eye in EyeFacts.Both)
        {
            direct[eye] = looking.Grade(Narrowing(eye, eye));
            record.Enter(new DirectResponse(eye, direct[eye]));
        }

        if (
            (IsPoor(Eye.Right) || IsPoor(Eye.Left) || direct[Eye.Right] != direct[Eye.Left])
            && !LeavesOut(ExamStep.Consensual)
        )
        {
            foreach (var lit in EyeFacts.Both)
                record.Enter(new ConsensualResponse(lit, lit.Fellow(), looking.Grade(Narrowing(lit, lit.Fellow()))));
        }

        EndNear(isNear);
    }

    private bool IsPoor(Eye eye) => direct.TryGetValue(eye, out var grade) && grade.HalfSteps <= 2;

    private double Narrowing(Eye lit, Eye observed) =>
        chair
            .Burns.Where(b => b.Block == Block.Direct && b.Lit == lit)
            .Average(b => b.Pupils[observed].RelativeNarrowing);

    private void Lamp(Block block, Eye eye, int nominal, bool isFaulty)
    {
        var factor = 1 + (scatter.TimingScatter * Math.Clamp(chance.NextGaussian(), -3, 3));
        if (isFaulty && person.TimingFault == block)
            factor = person.TimingFactor;
        chair.Burn(block, eye, nominal, (int)Math.Round(nominal * factor));
    }

    private void Swinging()
    {
        var isNear = BeginNear(NearSlip.Swinging);
        var alone = PupilWatchedAlone();
        SwingFinding? seen = null;
        if (!LeavesOut(ExamStep.SwingShort))
            seen = Dwell(Block.SwingShort, 1_000, Eye.Right, alone);
        if (!LeavesOut(ExamStep.SwingLong))
            seen = Dwell(Block.SwingLong, 3_000, Eye.Left, alone);
        EndNear(isNear);
        if (seen?.WorseEye() is { } worse && chance.Happens(0.6))
            Bracket(worse, alone);
    }

    // With one pupil that does not move, a careful examiner watches the other one alone.
    private Eye? PupilWatchedAlone()
    {
        foreach (var eye in EyeFacts.Both)
        {
            var isStill = direct.TryGetValue(eye, out var grade) && grade.HalfSteps == 0;
            var moves = direct.TryGetValue(eye.Fellow(), out var other) && other.HalfSteps > 0;
            if (isStill && moves)
                return chance.Happens(scatter.WatchesWorkingAlone) ? eye.Fellow() : null;
        }

        return null;
    }

    private SwingFinding Dwell(Block block, int milliseconds, Eye first, Eye? alone)
    {
        Hold(block);
        var from = chair.Burns.Count;
        Alternate(block, milliseconds, first);
        var finding = looking.Swing(chair.Burns[from..], alone);
        if (block == Block.SwingLong && finding.WorseEye() is { } worse && chance.Happens(0.7))
            Bell(worse);
        record.Enter(new SwingOutcome(block, finding, Observed(alone)));
        chair.Pass(500);
        return finding;
    }

    private static PupilsObserved Observed(Eye? alone) =>
        alone switch
        {
            Eye.Right => PupilsObserved.Right,
            Eye.Left => PupilsObserved.Left,
            _ => PupilsObserved.Both,
        };

    private void Alternate(Block block, int milliseconds, Eye first)
    {
        for (var i = 0; i < 2 * Alternations; i++)
        {
            Lamp(block, i % 2 == 0 ? first : first.Fellow(), milliseconds, isFaulty: i == 3);
            chair.Pass(100);
        }

        // It counts alternations without a break, too: after the fourth lamp, two more make four.
        if (!IsCutShort(chair.Burns.Count - (2 * Alternations)))
            return;
        for (var i = 0; i < Alternations; i++)
        {
            Lamp(block, i % 2 == 0 ? first : first.Fellow(), milliseconds, isFaulty: false);
            chair.Pass(100);
        }
    }

    private bool IsCutShort(int from) => chair.Burns.Skip(from).Any(b => b.Milliseconds < 0.95 * b.NominalMilliseconds);

    // The long dwell began with the left eye and ended with the right one. Grade IV needs 6 s in the better eye.
    private void Bell(Eye worse)
    {
        var loss = person.Eyes.Eyes[worse].AfferentLossLogUnits - person.Eyes.Eyes[worse.Fellow()].AfferentLossLogUnits;
        var grade = (int)Truth.TrueGrade.Of(loss);
        if (!chance.Happens(scatter.BellAgreement))
            grade = Math.Clamp(grade + (chance.Happens(0.5) || grade == 1 ? 1 : -1), 1, 5);
        bell = new(worse, (BellGrade)grade);
        if (bell.Grade != BellGrade.IV)
            return;
        if (worse == Eye.Left)
        {
            Lamp(Block.SwingLong, Eye.Left, 3_000, isFaulty: false);
            chair.Pass(100);
        }

        chair.Burn(Block.SwingLong, worse.Fellow(), 3_000, 6_000);
        chair.Pass(100);
        Lamp(Block.SwingLong, worse, 3_000, isFaulty: false);
        chair.Pass(500);
    }

    // A filter before the better eye is a loss of that eye for as long as it is held there.
    private void Bracket(Eye worse, Eye? alone)
    {
        bracket = DensityBracket.Begin(worse);
        while (bracket.Next is { } next && bracket.Answers.Count < 12)
        {
            var better = person.Eyes.Eyes[next.BeforeEye];
            var filtered = better with { AfferentLossLogUnits = better.AfferentLossLogUnits + next.LogUnits };
            var truth = person.Eyes with
            {
                Eyes = person.Eyes.Eyes.With(next.BeforeEye, filtered),
                UnrestMillimetres = scatter.UnrestMillimetres,
            };
            var seat = new Chair(truth, new Recorder(0), unchecked(person.Seed + bracket.Answers.Count + 17));
            seat.Show(Scene.Room(Rooms.DimLux));
            seat.Settle(3_000);
            for (var i = 0; i < 2 * Alternations; i++)
                seat.Burn(Block.SwingLong, i % 2 == 0 ? Eye.Right : Eye.Left, 3_000, 3_000);
            var seen = looking.Swing(seat.Burns, alone);
            bracket = bracket.Answer(
                seen switch
                {
                    SwingFinding.CouldNotSee => BracketAnswer.CouldNotSee,
                    SwingFinding.Alike => BracketAnswer.Alike,
                    _ => seen.WorseEye() == worse ? BracketAnswer.StillWorse : BracketAnswer.Reversed,
                }
            );
        }
    }

    private void NearIfDue()
    {
        if ((!IsPoor(Eye.Right) && !IsPoor(Eye.Left)) || LeavesOut(ExamStep.Near))
            return;
        if (chance.Happens(scatter.NearInOtherLight))
        {
            record.Say(InstrumentEvent.RoomMeasured(default, 1000 * Rooms.BrightLux));
            chair.Show(Scene.Room(Rooms.BrightLux));
        }

        Hold(Block.Near);
        chair.Settle(20_000);
        var before = new PerEye<double> { Right = chair.Millimetres(Eye.Right), Left = chair.Millimetres(Eye.Left) };
        record.Say(InstrumentEvent.FixationChanged(default, FixationDistance.Near));
        chair.Near(true);
        chair.Pass(4_000);
        foreach (var eye in EyeFacts.Both)
        {
            var narrowing = Math.Max(0, (before[eye] - chair.Millimetres(eye)) / before[eye]);
            record.Enter(new NearResponse(eye, looking.Grade(narrowing)));
        }

        chair.Near(false);
        record.Say(InstrumentEvent.FixationChanged(default, FixationDistance.Far));
        chair.Pass(500);
    }
}
