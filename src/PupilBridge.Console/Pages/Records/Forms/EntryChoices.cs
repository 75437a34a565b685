using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Records.Forms;

/// <summary>What an exam holds, in the journal's order, for choosing one of it.</summary>
internal static class EntryChoices
{
    /// <summary>Sizes, judgements and stimuli, each by its place in the journal.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="times">The clinic's clock.</param>
    public static IEnumerable<(string Value, string Words)> Of(ExamView exam, HouseTime times) =>
        Sizes(exam, times)
            .Concat(Judgements(exam, times))
            .Concat(Stimuli(exam))
            .OrderBy(one => one.Sequence)
            .Select(one =>
                (
                    one.Sequence.ToString(CultureInfo.InvariantCulture),
                    PageText.Words.Get("Split.Entry", one.Sequence, one.Words)
                )
            );

    /// <summary>What can be taken back: judgements, states of the eyes and remarks that count, by the entry's id.</summary>
    public static IEnumerable<(string Value, string Words)> ToWithdraw(ExamView exam, HouseTime times)
    {
        var words = PageText.Words;
        foreach (var one in exam.Judgements.Where(judgement => judgement.Counts))
        {
            yield return (one.EntryId, words.Get("Withdraw.One", Said(one), one.Who, times.Second(one.At)));
        }

        foreach (var one in exam.DefectGrade.Steps)
        {
            var said = words.Get(
                "Filter.Step",
                one.LogUnits.ToString("0.0", CultureInfo.InvariantCulture),
                PageText.Of("Eye", one.BeforeEye),
                one.Answer
            );
            yield return (one.EntryId, words.Get("Withdraw.One", said, one.Who, times.Second(one.At)));
        }

        if (exam.DefectGrade.Bell is { } bell)
        {
            var said = words.Get("Bell.Given", bell.Grade, PageText.Of("Eye", bell.Eye), bell.Words);
            yield return (bell.EntryId, words.Get("Withdraw.One", said, bell.Who, times.Second(bell.At)));
        }

        foreach (var one in exam.EyeStatuses.Where(status => status.Counts))
        {
            var conditions = string.Join(", ", one.Conditions.Select(condition => PageText.Of("Condition", condition)));
            var said = words.Get("Withdraw.EyeStatus", PageText.Of("Eye", one.Eye), conditions);
            yield return (one.EntryId, words.Get("Withdraw.One", said, one.Who, times.Second(one.At)));
        }

        foreach (var one in exam.Notes.Where(note => note.Counts))
        {
            var said = words.Get("Withdraw.Note", Shortened(one.Text ?? words["Notes.Erased"]));
            yield return (one.EntryId, words.Get("Withdraw.One", said, one.Who, times.Second(one.At)));
        }
    }

    private static IEnumerable<(long Sequence, string Words)> Sizes(ExamView exam, HouseTime times) =>
        exam.Sizes.Select(size =>
            (
                size.Sequence,
                PageText.Words.Get(
                    "Split.Size",
                    times.Second(size.At),
                    PageText.Of("Eye", size.Eye),
                    SizeWords.Number(size.Millimetres)
                )
            )
        );

    private static IEnumerable<(long Sequence, string Words)> Judgements(ExamView exam, HouseTime times) =>
        exam.Judgements.Select(one =>
            (one.Sequence, PageText.Words.Get("Split.Judgement", times.Second(one.At), Said(one)))
        );

    private static IEnumerable<(long Sequence, string Words)> Stimuli(ExamView exam) =>
        exam.Stimuli.Select(one =>
            (
                one.Sequence,
                PageText.Words.Get("Split.Stimulus", PageText.Of("Block", one.Block), PageText.Of("Eye", one.Eye))
            )
        );

    private static string Said(JudgementView judgement)
    {
        var words = JudgementWords.Of(judgement);
        return $"{words.What}: {words.How}";
    }

    private static string Shortened(string text) => text.Length > 60 ? text[..60] + "…" : text;
}
