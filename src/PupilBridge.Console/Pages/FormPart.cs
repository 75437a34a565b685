using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Layout;

namespace PupilBridge.Console.Pages;

/// <summary>
/// A form that makes an entry. It is sent with an id that was drawn when the form was shown, so that a form sent twice is recorded
/// once. Where it is refused it stands there again with all that was typed, and with what is wrong.
/// </summary>
public abstract class FormPart : PagePart
{
    private string? drawn;

    /// <summary>The form's name, of its own on the page.</summary>
    protected abstract string FormName { get; }

    /// <summary>The names of the fields and what is wrong with each.</summary>
    protected Dictionary<string, string> Wrong { get; } = new(StringComparer.Ordinal);

    /// <summary>What is wrong with the form as a whole; null for nothing.</summary>
    protected string? Problem { get; set; }

    /// <summary>What to say on the next page.</summary>
    [Inject]
    protected Said Said { get; set; } = null!;

    /// <summary>Whether it is this form that was sent with the request.</summary>
    protected bool IsSent =>
        HttpMethods.IsPost(Context.Request.Method)
        && Context.Request.HasFormContentType
        && Context.Request.Form["_handler"] == FormName;

    /// <summary>The entry's id.</summary>
    protected string EntryId =>
        IsSent && Context.Request.Form["entryId"].ToString() is { Length: > 0 } sent
            ? sent
            : drawn ??= Guid.NewGuid().ToString("N");

    /// <summary>What was typed into a field; what it held at first if the form was not sent.</summary>
    /// <param name="field">The field's name.</param>
    /// <param name="initially">What it holds at first.</param>
    protected string Typed(string field, string? initially = null) =>
        IsSent ? Context.Request.Form[field].ToString() : initially ?? "";

    /// <summary>Whether a box is ticked, or an option chosen.</summary>
    protected bool IsTicked(string field, string value) => IsSent && Context.Request.Form[field].Contains(value);

    /// <summary>All values that were ticked.</summary>
    protected IReadOnlyList<string> Ticked(string field) => [.. Context.Request.Form[field].OfType<string>()];

    /// <summary>What was typed, without blanks around it; null if that is nothing. What is needed and missing is marked as wrong.</summary>
    protected string? Needed(string field, string whatIsMissing)
    {
        var typed = Typed(field).Trim();
        if (typed.Length > 0)
        {
            return typed;
        }

        Wrong[field] = whatIsMissing;
        return null;
    }

    /// <summary>What was typed, without blanks around it; null if that is nothing.</summary>
    protected string? Optional(string field) => Typed(field).Trim() is { Length: > 0 } typed ? typed : null;

    /// <summary>The patient of a number that was typed; null if there is none, or if it is no number, which is then marked as wrong.</summary>
    protected async Task<PatientView?> FindAsync(string field, string number)
    {
        try
        {
            return await Desks.Records.ShowPatientAsync(number, Gone);
        }
        catch (EntryProblemException problem)
        {
            Wrong[field] = problem.Message;
            return null;
        }
    }

    /// <summary>Whether something stands in the way; the form is then shown again.</summary>
    protected bool IsWrong()
    {
        if (Wrong.Count == 0 && Problem is null)
        {
            return false;
        }

        Context.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return true;
    }

    /// <summary>Records an entry and goes on to a page that says so; a refused one leaves the form as it is.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="to">Where to go; {0} stands for the exam that the entry opened or belongs to.</param>
    /// <param name="done">What to say there.</param>
    protected async Task EnterAsync(DeskEntry entry, Func<long?, string> to, string done)
    {
        ArgumentNullException.ThrowIfNull(to);
        var outcome = await Desks.Clinic.EnterAsync(entry, Gone);
        switch (outcome)
        {
            case EntryOutcome.Recorded recorded:
                Said.Say(recorded.Notice is { } notice ? $"{done} {notice}" : done);
                Navigation.NavigateTo(to(recorded.Exam));
                break;
            case EntryOutcome.AlreadyRecorded known:
                Said.Say(T.Get("Form.AlreadyRecorded", known.Sequence));
                Navigation.NavigateTo(to(known.Exam));
                break;
            case EntryOutcome.Refused refused:
                Problem = $"{refused.Reason} {refused.NextStep}";
                IsWrong();
                break;
            default:
                throw new InvalidOperationException($"No page knows the outcome {outcome.GetType().Name}.");
        }
    }
}
