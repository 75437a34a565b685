using System.Diagnostics;
using System.Text.RegularExpressions;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>
/// OpenSSL's own client and server, told by a settings file to take every version and cipher that it was built with: where a version is
/// refused then, it is not this machine's caution.
/// </summary>
internal sealed partial class Openssl(string settingsFile)
{
    private const string Everything = "ALL:@SECLEVEL=0";

    /// <summary>Settings that allow everything; for the service's process as well.</summary>
    public const string Settings = $"""
        openssl_conf = all
        [all]
        ssl_conf = ssl
        [ssl]
        system_default = oldest
        [oldest]
        MinProtocol = TLSv1
        CipherString = {Everything}

        """;

    /// <summary>Which file of settings OpenSSL reads.</summary>
    public IReadOnlyDictionary<string, string> Environment { get; } =
        new Dictionary<string, string> { ["OPENSSL_CONF"] = settingsFile };

    /// <summary>Makes a certificate for the console, with its key in the same file.</summary>
    public async Task MakeCertificateAsync(string file)
    {
        var key = file + ".key";
        using var made = Start(
            "req",
            "-x509",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:prime256v1",
            "-nodes",
            "-keyout",
            key,
            "-out",
            file,
            "-subj",
            "/CN=localhost",
            "-days",
            "2",
            "-config",
            "/dev/null",
            "-sha256"
        );
        var said = await made.StandardError.ReadToEndAsync();
        await made.WaitForExitAsync();
        Assert.True(made.ExitCode == 0, said);
        await File.AppendAllTextAsync(file, await File.ReadAllTextAsync(key));
    }

    /// <summary>Shakes hands in one version and says nothing more.</summary>
    /// <param name="port">The port on loopback.</param>
    /// <param name="version">The option for it, such as <c>-tls1_1</c>.</param>
    /// <returns>Whether it was accepted, and what the client said.</returns>
    public async Task<(bool IsAccepted, string Said)> GreetAsync(int port, string version)
    {
        using var client = Start("s_client", "-connect", $"127.0.0.1:{port}", version, "-cipher", Everything, "-brief");
        client.StandardInput.Close();
        var output = client.StandardOutput.ReadToEndAsync();
        var said = await client.StandardError.ReadToEndAsync() + await output;
        await client.WaitForExitAsync();
        return (said.Contains("CONNECTION ESTABLISHED", StringComparison.Ordinal), said);
    }

    /// <summary>A server that takes one version and no other.</summary>
    public async Task<(Process Server, int Port)> ServeAsync(string version, string certificate)
    {
        var server = Start(
            "s_server",
            "-accept",
            "127.0.0.1:0",
            "-cert",
            certificate,
            "-key",
            certificate,
            version,
            "-cipher",
            Everything
        );
        while (await server.StandardOutput.ReadLineAsync() is { } line)
        {
            if (Place().Match(line) is { Success: true } place)
                return (server, int.Parse(place.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));
        }

        throw new InvalidOperationException(await server.StandardError.ReadToEndAsync());
    }

    private Process Start(params string[] words)
    {
        var start = new ProcessStartInfo("openssl")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var word in words)
            start.ArgumentList.Add(word);
        foreach (var (name, value) in Environment)
            start.Environment[name] = value;
        return Process.Start(start) ?? throw new InvalidOperationException("openssl did not start.");
    }

    [GeneratedRegex(@"^ACCEPT .*:(\d+)$")]
    private static partial Regex Place();
}
