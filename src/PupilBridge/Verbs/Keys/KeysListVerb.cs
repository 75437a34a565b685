using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.People;

namespace PupilBridge.Verbs.Keys;

/// <summary><c>keys list</c>: which keys there are. The keys themselves are kept nowhere.</summary>
internal sealed class KeysListVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public KeysListVerb()
        : base("list", "Lists the keys of the web API, revoked ones included; the keys themselves are kept nowhere.")
    {
        Add(json);
        Example("pupilbridge keys list", "names, scopes, who made them and when");
        EndsWith(ExitCode.Storage);
        Does((call, _) => Task.FromResult(List(call)));
    }

    private ExitCode List(Call call)
    {
        using var desk = PeopleCommand.Open(call);
        PeopleCommand.Check(desk);
        var keys = desk.ListKeys();
        if (call.Get(json))
        {
            call.PrintJson(
                keys.Select(key => new
                {
                    key.Name,
                    key.Scopes,
                    key.By,
                    key.At,
                    key.RevokedAt,
                })
            );
            return ExitCode.Done;
        }

        var table = new TextTable("name", "scopes", "made by", "made", "revoked");
        foreach (var key in keys)
        {
            table.Add(
                key.Name,
                string.Join(", ", key.Scopes),
                key.By,
                call.LocalTime(key.At),
                key.RevokedAt is { } at ? call.LocalTime(at) : "-"
            );
        }

        table.Print(call, "There is no key. Make one with 'pupilbridge keys add NAME --scope SCOPE'.");
        return ExitCode.Done;
    }
}
