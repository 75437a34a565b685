using System.CommandLine;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.People;

/// <summary><c>people list</c>: who may sign in.</summary>
internal sealed class PeopleListVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public PeopleListVerb()
        : base("list", "Lists the people who may sign in at the console.")
    {
        Add(json);
        Example("pupilbridge people list", "names, roles, and who is switched off or locked");
        EndsWith(ExitCode.Storage);
        Does((call, _) => Task.FromResult(List(call)));
    }

    private ExitCode List(Call call)
    {
        using var desk = PeopleCommand.Open(call);
        PeopleCommand.Check(desk);
        var people = desk.List();
        if (call.Get(json))
        {
            call.PrintJson(
                people.Select(person => new
                {
                    person.Who,
                    Roles = Roles.Each.Where(role => person.Roles.HasFlag(role)).Select(GuardWords.Word),
                    person.IsEnabled,
                    person.LockedUntil,
                })
            );
            return ExitCode.Done;
        }

        var table = new TextTable("name", "roles", "state");
        foreach (var person in people)
        {
            table.Add(person.Who, GuardWords.List(person.Roles), State(call, person));
        }

        table.Print(
            call,
            "Nobody can sign in yet. Add somebody with 'pupilbridge people add NAME --role administrator'."
        );
        return ExitCode.Done;
    }

    private static string State(Call call, PersonView person) =>
        !person.IsEnabled ? "switched off"
        : person.LockedUntil is { } until ? $"locked until {call.LocalTime(until)}"
        : "may sign in";
}
