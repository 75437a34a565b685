using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.People;

namespace PupilBridge.Verbs.Keys;

/// <summary><c>keys revoke</c>: a key opens nothing any more.</summary>
internal sealed class KeysRevokeVerb : Verb
{
    private readonly Argument<string> name = new("name") { Description = "The key's name." };

    public KeysRevokeVerb()
        : base(
            "revoke",
            "Revokes a key for good. The next request with it is refused; a stream of events ends within 10 s. What was entered with it stays in "
                + "the journal."
        )
    {
        Add(name);
        Example("pupilbridge keys revoke registry", "the registry's key opens nothing any more");
        EndsWith(ExitCode.NotFound, ExitCode.Storage);
        Does(RevokeAsync);
    }

    private async Task<ExitCode> RevokeAsync(Call call, CancellationToken cancel)
    {
        using var desk = PeopleCommand.Open(call);
        PeopleCommand.Check(desk);
        var outcome = await desk.RevokeKeyAsync(PeopleCommand.Caller, call.Get(name)!, cancel).ConfigureAwait(false);
        if (!outcome.Done)
        {
            throw new CommandFailure(
                ExitCode.NotFound,
                outcome.Words,
                "'pupilbridge keys list' shows which there are."
            );
        }

        call.Print(outcome.Words);
        return ExitCode.Done;
    }
}
