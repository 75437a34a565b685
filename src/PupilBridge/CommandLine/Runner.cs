using System.CommandLine;
using System.Net.Sockets;
using System.Security;
using Microsoft.Extensions.Options;
using PupilBridge.Clinic.People;
using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Verbs.Backups;
using PupilBridge.Worker;

namespace PupilBridge.CommandLine;

/// <summary>
/// From the words on the command line to the exit code: parses, reports what is wrong with the words, runs the command,
/// and turns whatever it throws into a message for a person.
/// </summary>
/// <param name="root">The command tree.</param>
/// <param name="terminal">Where to write.</param>
/// <param name="surroundings">Clock and environment variables.</param>
internal sealed class Runner(RootCommand root, Terminal terminal, Surroundings surroundings)
{
    /// <summary>EPIPE, as Linux and macOS number it.</summary>
    private const int BrokenPipe = 32;

    /// <summary>Runs one command line.</summary>
    /// <param name="words">The words after the program's name.</param>
    /// <param name="interrupted">Ends the command early, as Ctrl-C does.</param>
    /// <returns>The number to end the process with.</returns>
    public async Task<int> RunAsync(IReadOnlyList<string> words, CancellationToken interrupted)
    {
        var parsed = root.Parse(words);
        if (parsed.Errors.Count > 0)
        {
            return (int)ReportUsage(parsed);
        }

        if (parsed.Action is not (null or OwnWork))
        {
            // Help, version and completion bring their own action.
            var done = parsed.Invoke(new InvocationConfiguration { Output = terminal.Out, Error = terminal.Error });
            await terminal.Out.FlushAsync(CancellationToken.None).ConfigureAwait(false);
            return done;
        }

        var verb = (Verb)parsed.CommandResult.Command;
        try
        {
            var code = await verb.Work!(new Call(parsed, terminal, surroundings), interrupted).ConfigureAwait(false);
            await terminal.Out.FlushAsync(CancellationToken.None).ConfigureAwait(false);
            return (int)code;
        }
        catch (IOException gone) when (gone.HResult == BrokenPipe)
        {
            // Whoever read the output has seen enough, as 'head' does.
            return (int)ExitCode.Done;
        }
        catch (OperationCanceledException) when (interrupted.IsCancellationRequested)
        {
            return (int)ExitCode.Interrupted;
        }
        catch (Exception fault)
        {
            var failure = fault as CommandFailure ?? Explained(fault);
            await terminal.Out.FlushAsync(CancellationToken.None).ConfigureAwait(false);
            terminal.Report(failure);
            if (surroundings.Variable("PUPILBRIDGE_TRACE") == "1")
            {
                terminal.Error.WriteLine(fault);
            }

            return (int)failure.Code;
        }
    }

    private ExitCode ReportUsage(ParseResult parsed)
    {
        foreach (var error in parsed.Errors)
        {
            terminal.Error.WriteLine($"pupilbridge: {OnOneLine(error.Message)}");
        }

        var command = parsed.CommandResult.Command;
        foreach (var near in parsed.UnmatchedTokens.SelectMany(word => NearWords.Of(command, word)).Distinct().Take(3))
        {
            terminal.Error.WriteLine($"Did you mean '{near}'?");
        }

        terminal.Error.WriteLine($"See '{FullName(command)} --help' for what is understood.");
        return ExitCode.Usage;
    }

    private static string OnOneLine(string message) =>
        WithoutTypeNames(
            string.Join(' ', message.Split((char[])['\r', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries))
        );

    /// <summary>The parser names types of the runtime; a person reads what to type.</summary>
    private static string WithoutTypeNames(string message) =>
        message
            .Replace(" as expected type 'System.Int64'", ": a whole number is expected", StringComparison.Ordinal)
            .Replace(
                " as expected type 'System.Nullable`1[System.Int64]'",
                ": a whole number is expected",
                StringComparison.Ordinal
            )
            .Replace(" as expected type 'System.Int32'", ": a whole number is expected", StringComparison.Ordinal)
            .Replace(" as expected type 'System.Double'", ": a number is expected", StringComparison.Ordinal)
            .Replace(
                " as expected type 'System.Nullable`1[System.DateOnly]'",
                ": a day is expected, written YYYY-MM-DD",
                StringComparison.Ordinal
            );

    private static CommandFailure Explained(Exception fault) =>
        fault switch
        {
            JournalLockedException => new CommandFailure(ExitCode.InUse, fault.Message),
            JournalException => new CommandFailure(ExitCode.Storage, fault.Message),
            KeyException => new CommandFailure(ExitCode.Storage, fault.Message),
            ExamLogBrokenException => new CommandFailure(ExitCode.Damaged, fault.Message),
            BackupException trouble => new CommandFailure(
                BackupArguments.CodeOf(trouble.Trouble),
                trouble.Message,
                trouble.Next
            ),
            WrongKeyException => new CommandFailure(
                ExitCode.Refused,
                fault.Message,
                "Name a file that 'gpg --export' or 'gpg --export-secret-keys' wrote."
            ),
            AccessFileException => new CommandFailure(ExitCode.Storage, fault.Message),
            BridgeStartException => new CommandFailure(ExitCode.Storage, fault.Message),
            OptionsValidationException invalid => new CommandFailure(
                ExitCode.Configuration,
                string.Join(Environment.NewLine + "  ", invalid.Failures.Prepend("The configuration is invalid:")),
                "Mend it, look with 'pupilbridge config check', and start again."
            ),
            UnauthorizedAccessException or SecurityException => new CommandFailure(
                ExitCode.Storage,
                fault.Message,
                "Run the command as the account that owns the data folder, or name another with --data DIR."
            ),
            SocketException => new CommandFailure(
                ExitCode.NoService,
                $"The connection to the running service broke: {fault.Message}",
                "Look at the service's own messages, then run the command again."
            ),
            IOException => new CommandFailure(
                ExitCode.Storage,
                fault.Message,
                "Check free space and permissions of the data folder, then run the command again."
            ),
            _ => new CommandFailure(
                ExitCode.Fault,
                $"An unforeseen fault: {fault.GetType().Name}: {fault.Message}",
                "Nothing that was acknowledged is lost. Please report it, with this message and the command line; "
                    + "PUPILBRIDGE_TRACE=1 shows where it happened."
            ),
        };

    /// <summary>The words that name a command, from the program's name on.</summary>
    /// <param name="command">The command.</param>
    /// <returns>For example <c>pupilbridge exams list</c>.</returns>
    public static string FullName(Command command)
    {
        var names = new Stack<string>();
        for (Symbol? at = command; at is not null; at = at.Parents.FirstOrDefault())
        {
            names.Push(at is RootCommand ? "pupilbridge" : at.Name);
        }

        return string.Join(' ', names);
    }
}
