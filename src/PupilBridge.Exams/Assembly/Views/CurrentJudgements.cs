using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>The judgements of an exam that hold: the latest of each kind that was not taken back.</summary>
public static class CurrentJudgements
{
    /// <summary>The form of an eye's pupil.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>The judgement; null if it was not examined.</returns>
    public static JudgementRecord? Shape(Exam exam, Eye eye) => Latest<ShapeJudgement>(exam, j => j.Eye == eye);

    /// <summary>An eye's direct response.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>The judgement; null if it was not examined.</returns>
    public static JudgementRecord? Direct(Exam exam, Eye eye) => Latest<DirectResponse>(exam, j => j.Eye == eye);

    /// <summary>The consensual response to light in an eye.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="lit">The eye that was lit.</param>
    /// <returns>The judgement; null if it was not examined.</returns>
    public static JudgementRecord? Consensual(Exam exam, Eye lit) =>
        Latest<ConsensualResponse>(exam, j => j.Lit == lit);

    /// <summary>An eye's near response.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>The judgement; null if it was not examined.</returns>
    public static JudgementRecord? Near(Exam exam, Eye eye) => Latest<NearResponse>(exam, j => j.Eye == eye);

    /// <summary>Whether an eye was seen to be slow to dilate.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>The judgement; null if nobody said so.</returns>
    public static JudgementRecord? SlowToDilate(Exam exam, Eye eye) => Latest<SlowToDilate>(exam, j => j.Eye == eye);

    /// <summary>The outcomes of the swinging test at one dwell, one for each run that was judged, in order of the runs.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="dwell">The short or the long dwell.</param>
    /// <returns>The outcomes.</returns>
    public static ImmutableArray<JudgementRecord> Swings(Exam exam, Block dwell)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return
        [
            .. exam
                .Judgements.Where(j => j.WithdrawnBy is null && j.Judgement is SwingOutcome o && o.Dwell == dwell)
                .GroupBy(j => j.Run)
                .OrderBy(run => run.Key)
                .Select(run => run.Last()),
        ];
    }

    private static JudgementRecord? Latest<T>(Exam exam, Func<T, bool> condition)
        where T : Judgement
    {
        ArgumentNullException.ThrowIfNull(exam);
        for (var i = exam.Judgements.Count - 1; i >= 0; i--)
        {
            var record = exam.Judgements[i];
            if (record.WithdrawnBy is null && record.Judgement is T judgement && condition(judgement))
                return record;
        }

        return null;
    }
}
