using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.SignIn;

/// <summary>What the pages about signing in and about people have at hand.</summary>
public abstract class SignInForm : ComponentBase
{
    /// <summary>The request.</summary>
    [CascadingParameter]
    public HttpContext Context { get; set; } = null!;

    /// <summary>The people.</summary>
    [Inject]
    protected IPeopleDesk People { get; set; } = null!;

    /// <summary>Where to go after a form.</summary>
    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private PasswordAgain Again { get; set; } = null!;

    /// <summary>What is wrong with the form that was sent, for the person; null for nothing.</summary>
    protected string? Problem { get; set; }

    /// <summary>What is to be typed anew; null for nothing in particular.</summary>
    protected PersonField? Wrong { get; private set; }

    /// <summary>What was done; null for nothing.</summary>
    protected string? Done { get; set; }

    /// <summary>Which form was sent with the request; null for none.</summary>
    protected string? Sent =>
        HttpMethods.IsPost(Context.Request.Method) && Context.Request.HasFormContentType
            ? Context.Request.Form["_handler"].ToString()
            : null;

    /// <summary>The words.</summary>
    protected static HouseText T => SignInText.Words;

    /// <summary>Who calls.</summary>
    protected Caller Me => CallerContext.Current(Context);

    /// <summary>Gives up when the browser does.</summary>
    protected CancellationToken Gone => Context.RequestAborted;

    /// <summary>What was typed into a field of the form that was sent; empty if none was.</summary>
    protected string Typed(string field) => Sent is null ? "" : Context.Request.Form[field].ToString();

    /// <summary>The roles that were ticked.</summary>
    protected ClinicRole TypedRoles() =>
        Sent is null
            ? ClinicRole.None
            : Roles
                .Each.Where(role => Context.Request.Form["role"].Contains($"{role}"))
                .Aggregate(ClinicRole.None, (all, one) => all | one);

    /// <summary>Two passwords that must be the same.</summary>
    /// <returns>The password; null if they differ, with words about it.</returns>
    protected string? TypedTwice()
    {
        if (Typed("password") == Typed("again"))
        {
            return Typed("password");
        }

        Wrong = PersonField.Password;
        Refuse(T["Form.NotTheSame"]);
        return null;
    }

    /// <summary>Whether it is the person who is signed in that sent the form: their own password says so.</summary>
    /// <param name="field">The field in which they typed it.</param>
    /// <returns>False if not, with words about it.</returns>
    protected async Task<bool> IsMeAsync(string field)
    {
        var (status, words) = await Again.CheckAsync(Context, Typed(field)).ConfigureAwait(true);
        if (words is null)
        {
            return true;
        }

        Wrong = PersonField.OldPassword;
        Refuse(words, status);
        return false;
    }

    /// <summary>Shows the form again with what is wrong.</summary>
    protected void Refuse(string words, int status = StatusCodes.Status422UnprocessableEntity)
    {
        Problem = words;
        Context.Response.StatusCode = status;
    }

    /// <summary>Shows what came of something.</summary>
    protected void Tell(PersonOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        if (outcome.Done)
        {
            Done = outcome.Words;
        }
        else
        {
            Wrong = outcome.Wrong;
            Refuse(outcome.Words);
        }
    }

    /// <summary>Where to go after signing in: where the person wanted to, or what their roles open.</summary>
    protected string Onward(string? then) =>
        IsOwn(then) ? then!
        : Me.May(Roles.Instruments) ? "/"
        : "/people";

    private static bool IsOwn(string? path) =>
        path is ['/', ..] && path is not ['/', '/' or '\\', ..] && !path.Any(char.IsControl);
}
