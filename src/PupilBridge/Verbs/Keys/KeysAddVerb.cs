using System.CommandLine;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.People;

namespace PupilBridge.Verbs.Keys;

/// <summary><c>keys add</c>: a program may use the web API from now on.</summary>
internal sealed class KeysAddVerb : Verb
{
    private readonly Argument<string> name = new("name")
    {
        Description = "The key's name, 1 to 40 characters: entries made with it stand under that name.",
    };

    private readonly Option<string[]> scope = new("--scope")
    {
        Description = "What it opens; may stand several times.",
        Required = true,
        AllowMultipleArgumentsPerToken = false,
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public KeysAddVerb()
        : base(
            "add",
            "Makes a key by which a program may use the web API. The key is printed on standard output this once; only its hash is kept."
        )
    {
        scope.AcceptOnlyFromAmong([.. KeyScopes.All]);
        Add(name);
        Add(scope);
        Add(json);
        Example(
            "pupilbridge keys add registry --scope records --scope patients",
            "a program that reads exams and patients"
        );
        EndsWith(ExitCode.Refused, ExitCode.Storage);
        Does(AddAsync);
    }

    private async Task<ExitCode> AddAsync(Call call, CancellationToken cancel)
    {
        using var desk = PeopleCommand.Open(call);
        PeopleCommand.Check(desk);
        var outcome = await desk.AddKeyAsync(PeopleCommand.Caller, call.Get(name)!, call.Get(scope) ?? [], cancel)
            .ConfigureAwait(false);
        if (!outcome.Done)
        {
            throw new CommandFailure(ExitCode.Refused, outcome.Words);
        }

        if (call.Get(json))
        {
            call.PrintJson(new { Name = call.Get(name)!.Trim(), outcome.Key });
        }
        else
        {
            call.Remark(outcome.Words);
            call.Print(outcome.Key!);
        }

        return ExitCode.Done;
    }
}
