using System.CommandLine;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.People;

/// <summary><c>people add</c>: somebody may sign in from now on.</summary>
internal sealed class PeopleAddVerb : Verb
{
    private readonly Argument<string> name = new("name") { Description = "The sign-in name; initials will do." };

    private readonly Option<string[]> role = new("--role")
    {
        Description = "What they may do; may stand several times.",
        Required = true,
        AllowMultipleArgumentsPerToken = false,
    };

    public PeopleAddVerb()
        : base(
            "add",
            "Adds a person who may sign in at the console. The password is typed at the terminal, or comes as one line on "
                + "standard input."
        )
    {
        role.AcceptOnlyFromAmong([.. Roles.Each.Select(GuardWords.Word)]);
        Add(name);
        Add(role);
        Example("pupilbridge people add AB --role administrator", "asks for the password at the terminal");
        Example("pupilbridge people add MK --role examiner --role clinician", "somebody with two roles");
        EndsWith(ExitCode.Refused, ExitCode.Storage);
        Does(AddAsync);
    }

    private async Task<ExitCode> AddAsync(Call call, CancellationToken cancel)
    {
        using var desk = PeopleCommand.Open(call);
        PeopleCommand.Check(desk);
        var who = call.Get(name)!.Trim();
        if (desk.Find(who) is not null)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"There is a person {who} already.",
                "Choose another name, or give them a new password with 'pupilbridge people password'."
            );
        }

        var words = call.Get(role) ?? [];
        var roles = Roles
            .Each.Where(one => words.Contains(GuardWords.Word(one)))
            .Aggregate(ClinicRole.None, (all, one) => all | one);
        var password = PasswordAsking.Ask(call.Terminal, who);
        var outcome = await desk.AddAsync(PeopleCommand.Caller, who, roles, password, cancel).ConfigureAwait(false);
        var code = PeopleCommand.Tell(call, outcome);
        if (desk.List().All(person => !person.IsEnabled || !person.Roles.HasFlag(ClinicRole.Administrator)))
        {
            call.Remark("Nobody is an administrator yet, so people can be changed only by these commands.");
        }

        return code;
    }
}
