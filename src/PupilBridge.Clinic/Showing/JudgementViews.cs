using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Showing;

/// <summary>The judgements of an exam: those that hold first, then those that do not, each with the reason.</summary>
internal static class JudgementViews
{
    /// <summary>All judgements.</summary>
    public static IReadOnlyList<JudgementView> Of(Exam exam)
    {
        var holding = Holding(exam).Select(judgement => judgement.Entry).ToHashSet();
        return
        [
            .. exam
                .Judgements.Select(judgement => Of(judgement, holding.Contains(judgement.Entry)))
                .Concat(exam.RefusedJudgements.Select(Of))
                .OrderBy(view => !view.Counts)
                .ThenBy(view => view.Sequence),
        ];
    }

    private static JudgementView Of(JudgementRecord judgement, bool holds) =>
        new()
        {
            Judgement = JudgementSyntax.Write(judgement.Judgement),
            Who = judgement.Who.Value,
            At = Shown.Time(judgement.At),
            EntryId = judgement.Entry.ToString(),
            Sequence = judgement.Sequence.Value,
            Counts = holds,
            WhyNot =
                holds ? null
                : judgement.WithdrawnBy is null ? ClinicText.Showing["Judgement.LaterHolds"]
                : ClinicText.Showing["Judgement.TakenBack"],
        };

    private static JudgementView Of(RefusedJudgement refused) =>
        new()
        {
            Judgement = JudgementSyntax.Write(refused.Judgement),
            Who = refused.Who.Value,
            At = Shown.Time(refused.At),
            EntryId = refused.Entry.ToString(),
            Sequence = refused.Sequence.Value,
            Counts = false,
            WhyNot = RefusalWords.Of(refused.Reason).Why,
        };

    /// <summary>The judgements that hold.</summary>
    public static IEnumerable<JudgementRecord> Holding(Exam exam)
    {
        var holding = new List<JudgementRecord?>();
        foreach (var eye in EyeFacts.Both)
        {
            holding.Add(CurrentJudgements.Shape(exam, eye));
            holding.Add(CurrentJudgements.Direct(exam, eye));
            holding.Add(CurrentJudgements.Consensual(exam, eye));
            holding.Add(CurrentJudgements.Near(exam, eye));
            holding.Add(CurrentJudgements.SlowToDilate(exam, eye));
        }

        holding.AddRange(CurrentJudgements.Swings(exam, Block.SwingShort));
        holding.AddRange(CurrentJudgements.Swings(exam, Block.SwingLong));
        return holding.OfType<JudgementRecord>();
    }
}
