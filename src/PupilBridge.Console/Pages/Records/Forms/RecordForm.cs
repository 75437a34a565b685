using Microsoft.AspNetCore.Components;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Pages.Records.Forms;

/// <summary>
/// A form about one exam. One that was sent is always shown, even where the exam no longer takes it: whoever typed it sees why it was
/// not taken, beside the exam as it is now, and what they typed.
/// </summary>
public abstract class RecordForm : FormPart
{
    /// <summary>The exam.</summary>
    [Parameter, EditorRequired]
    public RecordView Record { get; set; } = null!;

    /// <summary>Called after an entry was refused, to show the exam as it is now.</summary>
    [Parameter]
    public EventCallback OnChanged { get; set; }

    /// <summary>The exam's number.</summary>
    protected long Number => Record.Exam.Summary.Exam;

    /// <summary>Whether the exam was set aside: nothing is entered about it any more.</summary>
    protected bool IsAside => Record.Exam.Summary.Status == "set-aside";

    /// <summary>Whether its record is signed and nobody has begun to amend it.</summary>
    protected bool IsFrozen => Record.SignedVersions.Count > 0 && !Record.IsBeingAmended;

    /// <summary>Whether a person's ordinary entries are taken now, and the caller may make them.</summary>
    protected bool TakesEntries => !IsAside && !IsFrozen && Desks.May("lane");

    /// <summary>Whether the caller may sign, amend and set aside.</summary>
    protected bool MaySign => !IsAside && Desks.May("sign");

    /// <summary>Records the entry and comes back to the exam.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="done">What to say then.</param>
    protected Task SendAsync(DeskEntry entry, string done) => SendAsync(entry, _ => $"/exams/{Number}", done);

    /// <summary>Records the entry and goes on.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="to">Where to.</param>
    /// <param name="done">What to say then.</param>
    protected async Task SendAsync(DeskEntry entry, Func<long?, string> to, string done)
    {
        if (IsWrong())
        {
            return;
        }

        await EnterAsync(entry, to, done);
        if (Problem is not null)
        {
            await OnChanged.InvokeAsync();
        }
    }
}
