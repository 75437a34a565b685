using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Entering;

/// <summary>Who types an entry, when, and under which program version; stands in every entry for good.</summary>
internal sealed class Typist
{
    /// <summary>The environment variable with the initials of whoever sits at this terminal.</summary>
    public const string Variable = "PUPILBRIDGE_WHO";

    /// <summary>The option that names the person.</summary>
    public Option<string?> Option { get; } =
        new("--who")
        {
            Description = $"Initials of the person who enters it. Without it: ${Variable}.",
            HelpName = "INITIALS",
        };

    /// <summary>The stamp for an entry made now.</summary>
    /// <param name="call">The invocation.</param>
    /// <returns>Who, when, under which version.</returns>
    /// <exception cref="CommandFailure">Nobody was named.</exception>
    public EntryStamp Stamp(Call call)
    {
        var who = call.Get(Option) ?? call.Environment.Variable(Variable);
        return string.IsNullOrWhiteSpace(who)
            ? throw new CommandFailure(
                ExitCode.Usage,
                "It is not said who enters this.",
                $"Add --who INITIALS, or set {Variable} once in this terminal."
            )
            : new EntryStamp(who.Trim(), call.Time.GetUtcNow(), DeskHello.Own.Program);
    }

    /// <summary>Draws the id of an entry, by which a copy that is sent again is known.</summary>
    /// <returns>Thirty-two hexadecimal digits.</returns>
    public static string NewId() => Guid.NewGuid().ToString("N");
}
