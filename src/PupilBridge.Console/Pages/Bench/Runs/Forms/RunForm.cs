using Microsoft.AspNetCore.Components;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Pages.Bench.Runs.Forms;

/// <summary>
/// A form about one run. One that was sent is always shown, even where the run no longer takes it: whoever typed it sees why, beside
/// the run as it is now, and what they typed.
/// </summary>
public abstract class RunForm : BenchForm
{
    /// <summary>The run.</summary>
    [Parameter, EditorRequired]
    public BenchRunView View { get; set; } = null!;

    /// <summary>Called after an entry was refused, to show the run as it is now.</summary>
    [Parameter]
    public EventCallback OnChanged { get; set; }

    /// <summary>The run's number.</summary>
    protected long Run => View.Line.Run;

    /// <summary>Whether a person has not ended it yet; it may have been broken off all the same.</summary>
    protected bool TakesEnding => View.Line.State is "open" or "broken-off";

    /// <summary>Records the entry and comes back to the run.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="done">What to say then.</param>
    protected async Task SendAsync(DeskEntry entry, string done)
    {
        if (IsWrong())
        {
            return;
        }

        await EnterAsync(entry, _ => BenchWays.Run(Run), done);
        if (Problem is not null)
        {
            await OnChanged.InvokeAsync();
        }
    }
}
