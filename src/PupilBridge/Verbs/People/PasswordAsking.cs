using System.Text;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.People;

/// <summary>
/// Asks for a new password: at a terminal twice and without showing it, otherwise one line of standard input. Never an argument of a
/// command: those stand in histories and lists of processes.
/// </summary>
internal static class PasswordAsking
{
    /// <summary>Asks for it.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="who">Whose it will be.</param>
    /// <exception cref="CommandFailure">None was given, or the two differ.</exception>
    public static string Ask(Terminal terminal, string who)
    {
        if (terminal.ReadKey is not { } readKey)
        {
            return terminal.In.ReadLine() is { Length: > 0 } line
                ? line
                : throw new CommandFailure(
                    ExitCode.Usage,
                    "No password came.",
                    "Type it at a terminal, or hand it over as one line on standard input."
                );
        }

        var first = Hidden(terminal, readKey, $"New password for {who}: ");
        return first == Hidden(terminal, readKey, "The same once more: ")
            ? first
            : throw new CommandFailure(
                ExitCode.Refused,
                "The two passwords are not the same; nothing was changed.",
                "Run the command again."
            );
    }

    /// <summary>Asks for one that is known already: at a terminal without showing it, otherwise one line of standard input.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="prompt">What is shown.</param>
    /// <exception cref="CommandFailure">None was given.</exception>
    public static string AskOnce(Terminal terminal, string prompt) =>
        terminal.ReadKey is { } readKey ? Hidden(terminal, readKey, prompt)
        : terminal.In.ReadLine() is { Length: > 0 } line ? line
        : throw new CommandFailure(
            ExitCode.Usage,
            "No pass phrase came.",
            "Name a file with --pass-phrase-file, type it at a terminal, or hand it over as one line on standard input."
        );

    private static string Hidden(Terminal terminal, Func<ConsoleKeyInfo> readKey, string prompt)
    {
        terminal.Error.Write(prompt);
        terminal.Error.Flush();
        var typed = new StringBuilder();
        for (var key = readKey(); key.Key != ConsoleKey.Enter; key = readKey())
        {
            if (key.Key == ConsoleKey.Backspace)
            {
                typed.Length = Math.Max(0, typed.Length - 1);
            }
            else if (!char.IsControl(key.KeyChar))
            {
                typed.Append(key.KeyChar);
            }
        }

        terminal.Error.WriteLine();
        return typed.ToString();
    }
}
