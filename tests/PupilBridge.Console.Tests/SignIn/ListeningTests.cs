using System.Net;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.Extensions.Logging.Abstractions;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>Where the console listens, over real sockets of loopback.</summary>
public sealed class ListeningTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("console-listening-");

    public void Dispose() => folder.Delete(recursive: true);

    [Theory]
    [InlineData("127.0.0.1", false, true)]
    [InlineData("::1", false, true)]
    [InlineData("0.0.0.0", false, false)]
    [InlineData("192.0.2.7", false, false)]
    [InlineData("::", false, false)]
    [InlineData("0.0.0.0", true, true)]
    [InlineData("lane-pc", false, false)]
    public void Anything_but_loopback_needs_a_certificate(string address, bool hasCertificate, bool isAllowed)
    {
        var settings = Settings() with { Address = address, CertificateFile = hasCertificate ? "some.pem" : null };
        Assert.Equal(isAllowed, ListeningRule.Obstacle(settings) is null);
    }

    [Fact]
    public async Task Without_one_nothing_is_served_and_the_message_says_what_to_set()
    {
        var fault = await Assert.ThrowsAsync<IOException>(() => StartAsync(Settings() with { Address = "0.0.0.0" }));
        Assert.Contains("Web:Certificate", fault.Message, StringComparison.Ordinal);
        Assert.Contains("0.0.0.0", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_certificate_that_is_none_is_named()
    {
        var file = Path.Combine(folder.FullName, "none.pem");
        await File.WriteAllTextAsync(file, "no certificate");
        var fault = await Assert.ThrowsAsync<IOException>(() => StartAsync(Settings() with { CertificateFile = file }));
        Assert.Contains(file, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Under_tls_cookies_are_held_to_this_host_and_browsers_are_told_to_stay_with_tls()
    {
        var (file, hash) = WriteCertificate();
        await using var server = await StartAsync(Settings() with { CertificateFile = file });
        Assert.Equal("https", server.Address.Scheme);
        using var handler = new SocketsHttpHandler
        {
            UseCookies = false,
            SslOptions = new SslClientAuthenticationOptions
            {
                RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == hash,
            },
        };
        using var browser = new HttpClient(handler) { BaseAddress = server.Address };
        using var answer = await browser.GetAsync(new Uri("/sign-in", UriKind.Relative));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(
            "max-age=",
            string.Join(",", answer.Headers.GetValues("Strict-Transport-Security")),
            StringComparison.Ordinal
        );
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.StartsWith("__Host-pupilbridge-form=", cookie, StringComparison.Ordinal);
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_body_without_a_length_is_cut_off_where_the_limit_is()
    {
        await using var server = await StartAsync(Settings());
        using var browser = new HttpClient { BaseAddress = server.Address };
        using var content = new StreamContent(new EndlessForm(1 << 20));
        content.Headers.ContentType = new("application/x-www-form-urlencoded");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in") { Content = content };
        request.Headers.TransferEncodingChunked = true;
        using var answer = await browser.SendAsync(request);
        Assert.Contains(
            answer.StatusCode,
            (HttpStatusCode[])[HttpStatusCode.RequestEntityTooLarge, HttpStatusCode.BadRequest]
        );
    }

    [Fact]
    public async Task The_server_does_not_tell_what_it_is()
    {
        await using var server = await StartAsync(Settings());
        using var browser = new HttpClient { BaseAddress = server.Address };
        using var answer = await browser.GetAsync(new Uri("/sign-in", UriKind.Relative));
        Assert.False(answer.Headers.Contains("Server"));
        Assert.False(answer.Headers.Contains("X-Powered-By"));
    }

    private ConsoleSettings Settings() =>
        new()
        {
            DataFolder = folder.FullName,
            ProgramVersion = "0.0-test",
            Port = 0,
        };

    private static Task<ConsoleServer> StartAsync(ConsoleSettings settings)
    {
        var desks = new ConsoleDesks(
            new Mock<IClinicDesk>().Object,
            new Mock<ILaneDesk>().Object,
            new Mock<IRecordDesk>().Object,
            new Mock<IBenchDesk>().Object,
            new Mock<IPeopleDesk>().Object
        );
        return ConsoleServer.StartAsync(
            settings,
            desks,
            TimeProvider.System,
            NullLoggerFactory.Instance,
            CancellationToken.None
        );
    }

    private (string File, string Hash) WriteCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256);
        using var certificate = request.CreateSelfSigned(
            TimeProvider.System.GetUtcNow().AddDays(-1),
            TimeProvider.System.GetUtcNow().AddDays(1)
        );
        var file = Path.Combine(folder.FullName, "console.pem");
        File.WriteAllText(file, certificate.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem());
        return (file, certificate.GetCertHashString());
    }

    /// <summary>A form of one long field.</summary>
    private sealed class EndlessForm(int length) : MemoryStream(FormBytes(length))
    {
        private static byte[] FormBytes(int length)
        {
            var bytes = new byte[length];
            Array.Fill(bytes, (byte)'x');
            "who="u8.CopyTo(bytes);
            return bytes;
        }

        public override bool CanSeek => false;
    }
}
