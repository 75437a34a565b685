using System.Diagnostics;

namespace PupilBridge.Safekeeping.Tests.Support;

/// <summary>GnuPG as a process of its own with a keyring of its own: the independent OpenPGP program of the tests.</summary>
internal sealed class Gpg : IDisposable
{
    private readonly TemporaryFolder home = new();

    public string At(string name) => home.At(name);

    public void Run(params string[] words) =>
        Run("gpg", ["--homedir", home.Path, "--batch", "--yes", "--no-tty", "--pinentry-mode", "loopback", .. words]);

    /// <summary>The fingerprint of a key's main part.</summary>
    public string Fingerprint(string who) =>
        Run("gpg", ["--homedir", home.Path, "--batch", "--with-colons", "--list-keys", who])
            .Split('\n')
            .First(line => line.StartsWith("fpr:", StringComparison.Ordinal))
            .Split(':')[9];

    public void Dispose()
    {
        Run("gpgconf", ["--homedir", home.Path, "--kill", "all"]);
        home.Dispose();
    }

    private static string Run(string program, IReadOnlyList<string> words)
    {
        using var process = Process.Start(
            new ProcessStartInfo(program, words) { RedirectStandardError = true, RedirectStandardOutput = true }
        )!;
        var output = process.StandardOutput.ReadToEndAsync();
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', words)}: {said}");
        return output.Result;
    }
}
