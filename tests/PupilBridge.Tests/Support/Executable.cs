using System.Diagnostics;
using System.Globalization;
using System.Text;
using PupilBridge.CommandLine;

namespace PupilBridge.Tests.Support;

/// <summary>The built program as a process of its own.</summary>
internal sealed class Executable : IDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(90);
    private readonly Process process;
    private readonly StringBuilder output = new();
    private readonly StringBuilder error = new();

    private Executable(Process process)
    {
        this.process = process;
        process.OutputDataReceived += (_, line) => Add(output, line.Data);
        process.ErrorDataReceived += (_, line) => Add(error, line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public static string Path { get; } =
        System.IO.Path.Combine(
            AppContext.BaseDirectory,
            OperatingSystem.IsWindows() ? "pupilbridge.exe" : "pupilbridge"
        );

    public int Id => process.Id;

    public string Out => Text(output);

    public string Error => Text(error);

    public static Executable Start(params string[] words) => Start(new Dictionary<string, string?>(), words);

    public static Executable Start(
        IReadOnlyDictionary<string, string?> variables,
        IReadOnlyList<string> words,
        string? program = null
    )
    {
        var start = new ProcessStartInfo(program ?? Path)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        foreach (var word in words)
        {
            start.ArgumentList.Add(word);
        }

        start.Environment["PUPILBRIDGE_DATA"] = null;
        // Without the console unless a test asks for it: several services run side by side here.
        start.Environment["PUPILBRIDGE_WEB__ENABLED"] = "false";
        foreach (var (name, value) in variables)
        {
            start.Environment[name] = value;
        }

        return new Executable(Process.Start(start)!);
    }

    public static async Task<Outcome> Run(params string[] words)
    {
        using var run = Start(words);
        return await run.Ended();
    }

    /// <summary>Waits until the process has ended by itself.</summary>
    public async Task<Outcome> Ended()
    {
        await process.WaitForExitAsync().WaitAsync(Deadline);
        return new Outcome((ExitCode)process.ExitCode, Out, Error);
    }

    /// <summary>Waits until a text stands in the output or in the messages.</summary>
    public async Task Says(string text)
    {
        var waited = Stopwatch.StartNew();
        while (!(Out + Error).Contains(text, StringComparison.Ordinal))
        {
            Assert.False(
                process.HasExited,
                $"It ended with {(process.HasExited ? process.ExitCode : 0)}: {Out}{Error}"
            );
            Assert.True(waited.Elapsed < Deadline, $"It never said '{text}': {Out}{Error}");
            await Task.Delay(25);
        }
    }

    public void Kill() => process.Kill();

    public void Signal(string name) => Signal(name, process.Id.ToString(CultureInfo.InvariantCulture));

    public static void Signal(string name, string id)
    {
        using var kill = Process.Start("kill", [$"-{name}", id]);
        kill.WaitForExit();
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill();
            process.WaitForExit();
        }

        process.Dispose();
    }

    private static void Add(StringBuilder to, string? line)
    {
        lock (to)
        {
            if (line is not null)
            {
                to.Append(line).Append('\n');
            }
        }
    }

    private static string Text(StringBuilder of)
    {
        lock (of)
        {
            return of.ToString();
        }
    }
}
