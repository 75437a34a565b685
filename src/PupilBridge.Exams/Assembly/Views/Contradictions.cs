using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>How two answers of one exam stand against each other.</summary>
public enum ContradictionKind
{
    /// <summary>One person answered anew: the later answer counts.</summary>
    Replaced = 1,

    /// <summary>
    /// Two people answered otherwise, and neither answer was taken back. The later one stands in the chart; whatever the other one would not
    /// bear out is not claimed.
    /// </summary>
    OtherPerson = 2,

    /// <summary>Two people answered otherwise about one run of the swinging test: neither answer counts.</summary>
    SameRun = 3,

    /// <summary>The pupil cannot be seen by the state of the eye, and something was judged of it all the same: nothing is claimed.</summary>
    HiddenPupil = 4,
}

/// <summary>A contradiction among an exam's judgements. Both answers are kept.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Stands">The later answer.</param>
/// <param name="Other">The earlier one; null where the state of an eye speaks against it.</param>
public sealed record Contradiction(ContradictionKind Kind, JudgementRecord Stands, JudgementRecord? Other);

/// <summary>
/// What contradicts itself in an exam. Each person's word on a thing is their latest answer; that one of them could not see it is no
/// answer to hold against another's. That the dwells of the swinging test, or its runs, disagree, and that both eyes looked alike though
/// a watched pupil has no direct response, is <see cref="Swinging"/>'s own matter.
/// </summary>
public static class Contradictions
{
    /// <summary>All of them, right before left.</summary>
    /// <param name="exam">The exam.</param>
    public static ImmutableArray<Contradiction> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var found = ImmutableArray.CreateBuilder<Contradiction>();
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            foreach (var stands in OfEye(exam, eye))
            {
                found.AddRange(Against(exam, stands));
                if (WasSeen(stands.Judgement) && ExamConditions.IsHidden(exam, eye))
                    found.Add(new(ContradictionKind.HiddenPupil, stands, null));
            }
        }

        foreach (var dwell in new[] { Block.SwingShort, Block.SwingLong })
            found.AddRange(CurrentJudgements.Swings(exam, dwell).SelectMany(stands => Against(exam, stands)));
        return found.ToImmutable();
    }

    /// <summary>The word of every other person who answered otherwise than a judgement, in the order in which they came.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="stands">The judgement.</param>
    public static ImmutableArray<JudgementRecord> Others(Exam exam, JudgementRecord stands)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(stands);
        return
        [
            .. AboutTheSame(exam, stands)
                .Where(other => other.Who != stands.Who)
                .GroupBy(other => other.Who)
                .Select(person => person.Last())
                .Where(other => other.Judgement != stands.Judgement)
                .OrderBy(other => other.Sequence),
        ];
    }

    /// <summary>
    /// The poorest direct response of an eye in anybody's word: what reads the swinging test must bear out every one of them.
    /// </summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>In half steps; null if it was not examined, or could not be seen.</returns>
    public static int? PoorestDirect(Exam exam, Eye eye) =>
        CurrentJudgements.Direct(exam, eye) is { } stands
            ? Others(exam, stands).Append(stands).Min(said => ((DirectResponse)said.Judgement).Grade.HalfSteps)
            : null;

    /// <summary>Whether something was seen at all.</summary>
    /// <param name="judgement">The judgement.</param>
    public static bool WasSeen(Judgement judgement) =>
        judgement switch
        {
            ShapeJudgement shape => shape.Shape != PupilShape.CouldNotSee,
            DirectResponse direct => direct.Grade.WasSeen,
            ConsensualResponse consensual => consensual.Grade.WasSeen,
            NearResponse near => near.Grade.WasSeen,
            SwingOutcome swing => swing.Finding != SwingFinding.CouldNotSee,
            _ => true,
        };

    private static IEnumerable<Contradiction> Against(Exam exam, JudgementRecord stands)
    {
        var kind = stands.Judgement is SwingOutcome ? ContradictionKind.SameRun : ContradictionKind.OtherPerson;
        foreach (var other in Others(exam, stands))
            yield return new(kind, stands, other);
        var replaced = AboutTheSame(exam, stands)
            .LastOrDefault(own =>
                own.Who == stands.Who && own.Sequence < stands.Sequence && own.Judgement != stands.Judgement
            );
        if (replaced is not null)
            yield return new(ContradictionKind.Replaced, stands, replaced);
    }

    private static IEnumerable<JudgementRecord> OfEye(Exam exam, Eye eye) =>
        new[]
        {
            CurrentJudgements.Shape(exam, eye),
            CurrentJudgements.Direct(exam, eye),
            CurrentJudgements.Consensual(exam, eye.Fellow()),
            CurrentJudgements.Near(exam, eye),
        }.OfType<JudgementRecord>();

    /// <summary>What was seen and not taken back about the same thing of the same eye; of the swinging test, about the same run.</summary>
    private static ValueList<JudgementRecord> AboutTheSame(Exam exam, JudgementRecord stands) =>
        exam.Judgements.Where(other =>
            other.WithdrawnBy is null
            && WasSeen(other.Judgement)
            && (other.Judgement, stands.Judgement) switch
            {
                (ShapeJudgement one, ShapeJudgement two) => one.Eye == two.Eye,
                (DirectResponse one, DirectResponse two) => one.Eye == two.Eye,
                (ConsensualResponse one, ConsensualResponse two) => one.Lit == two.Lit,
                (NearResponse one, NearResponse two) => one.Eye == two.Eye,
                (SwingOutcome one, SwingOutcome two) => one.Dwell == two.Dwell && other.Run == stands.Run,
                _ => false,
            }
        );
}
