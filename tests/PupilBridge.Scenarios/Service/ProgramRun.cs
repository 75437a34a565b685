using System.Diagnostics;

namespace PupilBridge.Scenarios.Service;

/// <summary>One command of the executable, run to its end.</summary>
/// <param name="ExitCode">The exit code.</param>
/// <param name="Output">Standard output.</param>
/// <param name="Errors">Standard error.</param>
public sealed record ProgramRun(int ExitCode, string Output, string Errors)
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(3);

    /// <summary>Runs a command.</summary>
    /// <param name="arguments">Its words.</param>
    /// <exception cref="TimeoutException">It did not end within 3 minutes.</exception>
    public static Task<ProgramRun> RunAsync(params string[] arguments) => RunWithInputAsync("", arguments);

    /// <summary>Runs a command that reads its standard input.</summary>
    /// <param name="input">What it reads there.</param>
    /// <param name="arguments">Its words.</param>
    /// <exception cref="TimeoutException">It did not end within 3 minutes.</exception>
    public static async Task<ProgramRun> RunWithInputAsync(string input, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "pupilbridge.dll"));
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        using var patience = new CancellationTokenSource(Limit);
        await process.StandardInput.WriteAsync(input).ConfigureAwait(false);
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync(patience.Token);
        var errors = process.StandardError.ReadToEndAsync(patience.Token);
        try
        {
            await process.WaitForExitAsync(patience.Token).ConfigureAwait(false);
            return new ProgramRun(
                process.ExitCode,
                await output.ConfigureAwait(false),
                await errors.ConfigureAwait(false)
            );
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            throw new TimeoutException(
                $"'{string.Join(' ', arguments)}' did not end within {Limit.TotalMinutes} minutes."
            );
        }
    }
}
