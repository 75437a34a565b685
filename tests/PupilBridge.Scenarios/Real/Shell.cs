using System.Diagnostics;

namespace PupilBridge.Scenarios.Real;

/// <summary>Programs of the operating system that make and mount file systems; they need the superuser.</summary>
public static class Shell
{
    /// <summary>Runs a program to its end.</summary>
    /// <param name="program">The program.</param>
    /// <param name="words">Its arguments.</param>
    /// <exception cref="InvalidOperationException">It failed; the message says what it said.</exception>
    public static void Run(string program, params string[] words)
    {
        if (Try(program, words) is { } fault)
            throw new InvalidOperationException($"{program} {string.Join(' ', words)}: {fault}");
    }

    /// <summary>Runs a program to its end.</summary>
    /// <param name="program">The program.</param>
    /// <param name="words">Its arguments.</param>
    /// <returns>What it said if it failed; null if all went well.</returns>
    public static string? Try(string program, params string[] words)
    {
        var start = new ProcessStartInfo(program, words)
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        try
        {
            using var process = Process.Start(start) ?? throw new InvalidOperationException("It did not start.");
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? null : $"{said.Trim()} (exit code {process.ExitCode})";
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            return e.Message;
        }
    }
}
