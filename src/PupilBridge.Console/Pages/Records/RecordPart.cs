using Microsoft.AspNetCore.Components;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Records;

/// <summary>A part of the page of one exam.</summary>
public abstract class RecordPart : PagePart
{
    /// <summary>The exam.</summary>
    [Parameter, EditorRequired]
    public RecordView Record { get; set; } = null!;

    /// <summary>Its number.</summary>
    protected long Number => Record.Exam.Summary.Exam;

    /// <summary>The judgements that count, taken apart.</summary>
    private protected IEnumerable<(JudgementView View, JudgementWords Words)> Counting =>
        Record.Exam.Judgements.Where(judgement => judgement.Counts).Select(view => (view, JudgementWords.Of(view)));
}
