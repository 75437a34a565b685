using System.CommandLine;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.People;

/// <summary><c>people disable</c> and <c>people enable</c>: whether somebody may sign in at all.</summary>
internal sealed class PeopleSwitchVerb : Verb
{
    private readonly Argument<string> name = new("name") { Description = "The sign-in name." };

    /// <summary>Makes one of the two.</summary>
    /// <param name="isEnabled">Whether it lets people in.</param>
    public PeopleSwitchVerb(bool isEnabled)
        : base(
            isEnabled ? "enable" : "disable",
            isEnabled
                ? "Lets a person sign in again; a lock after wrong passwords ends."
                : "Switches a sign-in off. Wherever the person is signed in, they are signed off; what they did stays in the journal."
        )
    {
        Add(name);
        Example($"pupilbridge people {Name} MK", isEnabled ? "MK may sign in again" : "MK may not sign in any more");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Storage);
        Does(
            async (call, cancel) =>
            {
                using var desk = PeopleCommand.Open(call);
                var who = PeopleCommand.Find(desk, call.Get(name)!.Trim()).Who;
                return PeopleCommand.Tell(
                    call,
                    await desk.ChangeAsync(PeopleCommand.Caller, who, new PersonChange(IsEnabled: isEnabled), cancel)
                        .ConfigureAwait(false)
                );
            }
        );
    }
}
