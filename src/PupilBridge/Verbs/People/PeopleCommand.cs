using System.Security.Cryptography;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;
using PupilBridge.Data;

namespace PupilBridge.Verbs.People;

/// <summary>
/// How the commands about people work: on the access file of the data folder, with or without a running service. The service sees the
/// change at once; whichever service runs next journals it.
/// </summary>
internal static class PeopleCommand
{
    /// <summary>Opens the people of the command's data folder.</summary>
    /// <param name="call">The invocation.</param>
    /// <returns>The desk; dispose of it when done.</returns>
    public static PeopleDesk Open(Call call) =>
        new(
            new PeopleParts
            {
                DataFolder = DataFolderChoice.For(call),
                Time = call.Time,
                Random = RandomNumberGenerator.Create(),
                Remark = remark => call.Remark($"pupilbridge: {remark}"),
            }
        );

    /// <summary>
    /// Who the command acts for: the account it runs as. It may do what an administrator may, since it may write the file anyway.
    /// </summary>
    public static Caller Caller
    {
        get
        {
            var account = string.Concat(Environment.UserName.Where(c => !char.IsControl(c))).Trim();
            return new Caller(
                $"{account[..Math.Min(account.Length, 40)]} (command line)".Trim(),
                ClinicRole.Administrator
            );
        }
    }

    /// <summary>Fails where the file cannot be used, before anybody types a password.</summary>
    /// <exception cref="CommandFailure">It cannot.</exception>
    public static void Check(PeopleDesk desk)
    {
        if (desk.Trouble is { } trouble)
        {
            throw new CommandFailure(ExitCode.Storage, trouble);
        }
    }

    /// <summary>A person who exists.</summary>
    /// <exception cref="CommandFailure">There is none of that name.</exception>
    public static PersonView Find(PeopleDesk desk, string who)
    {
        Check(desk);
        return desk.Find(who)
            ?? throw new CommandFailure(
                ExitCode.NotFound,
                $"There is no person {who}.",
                "'pupilbridge people list' shows who there is."
            );
    }

    /// <summary>Says what was done.</summary>
    /// <exception cref="CommandFailure">It was not.</exception>
    public static ExitCode Tell(Call call, PersonOutcome outcome)
    {
        if (!outcome.Done)
        {
            throw new CommandFailure(ExitCode.Refused, outcome.Words);
        }

        call.Print(outcome.Words);
        return ExitCode.Done;
    }
}
