using PupilBridge.Scenarios.Service;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>
/// Handshakes with the started service in each version of TLS (ASVS 5.0, 12.1.1; RFC 8996). Client and service run with settings of OpenSSL
/// that allow all that it was built with; SSL 3 and older it was not. A server of OpenSSL's own proves that the client can speak the old ones.
/// </summary>
public sealed class TlsVersionTests : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pb-tls-");
    private Openssl openssl = null!;
    private string certificate = "";
    private ServiceProcess? service;
    private int port;

    public async Task InitializeAsync()
    {
        var settings = Path.Combine(folder.FullName, "openssl.cnf");
        await File.WriteAllTextAsync(settings, Openssl.Settings);
        openssl = new Openssl(settings);
        certificate = Path.Combine(folder.FullName, "console.pem");
        await openssl.MakeCertificateAsync(certificate);
        var data = Path.Combine(folder.FullName, "data");
        service = ServiceProcess.Start(
            data,
            [Path.Combine(folder.FullName, "no-line")],
            ["Web:Enabled=true", "Web:Port=0", $"Web:Certificate={certificate}"],
            openssl.Environment
        );
        var place = Path.Combine(data, "console.url");
        await service.UntilAsync(() => Task.FromResult(File.Exists(place)), Patience, "The console did not start");
        var address = new Uri((await File.ReadAllTextAsync(place)).Trim());
        Assert.Equal("https", address.Scheme);
        port = address.Port;
    }

    public Task DisposeAsync()
    {
        service?.Dispose();
        folder.Delete(recursive: true);
        return Task.CompletedTask;
    }

    [Fact]
    public async Task Versions_before_1_2_are_refused_as_versions_and_1_2_and_1_3_are_taken()
    {
        foreach (var old in new[] { "-tls1", "-tls1_1" })
        {
            var (server, its) = await openssl.ServeAsync(old, certificate);
            using (server)
            {
                var (canSpeak, proof) = await openssl.GreetAsync(its, old);
                server.Kill();
                Assert.True(canSpeak, $"The client itself cannot speak {old}: {proof}");
            }

            var (isAccepted, said) = await openssl.GreetAsync(port, old);
            Assert.False(isAccepted, said);
            // protocol_version, RFC 8446, 6.2: not a cipher or a signature that the machine thinks too weak.
            Assert.Contains("SSL alert number 70", said, StringComparison.Ordinal);
        }

        foreach (var (version, name) in new[] { ("-tls1_2", "TLSv1.2"), ("-tls1_3", "TLSv1.3") })
        {
            var (isAccepted, said) = await openssl.GreetAsync(port, version);
            Assert.True(isAccepted, said);
            Assert.Contains($"Protocol version: {name}", said, StringComparison.Ordinal);
        }
    }
}
