using System.CommandLine;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.People;

/// <summary><c>people password</c>: gives somebody a new password, and lets them in again after too many wrong ones.</summary>
internal sealed class PeoplePasswordVerb : Verb
{
    private readonly Argument<string> name = new("name") { Description = "The sign-in name." };

    public PeoplePasswordVerb()
        : base(
            "password",
            "Gives a person a new password, typed at the terminal or as one line on standard input. Wherever they are signed "
                + "in, they are signed off; a lock after wrong passwords ends."
        )
    {
        Add(name);
        Example("pupilbridge people password MK", "asks for the new password at the terminal");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Storage);
        Does(ChangeAsync);
    }

    private async Task<ExitCode> ChangeAsync(Call call, CancellationToken cancel)
    {
        using var desk = PeopleCommand.Open(call);
        var who = PeopleCommand.Find(desk, call.Get(name)!.Trim()).Who;
        var password = PasswordAsking.Ask(call.Terminal, who);
        return PeopleCommand.Tell(
            call,
            await desk.ChangeAsync(PeopleCommand.Caller, who, new PersonChange(Password: password), cancel)
                .ConfigureAwait(false)
        );
    }
}
