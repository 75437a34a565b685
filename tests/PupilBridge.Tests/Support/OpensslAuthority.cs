using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace PupilBridge.Tests.Support;

/// <summary>A time-stamping authority of OpenSSL (<c>openssl ts</c>) behind a small HTTP listener on loopback: an independent RFC 3161.</summary>
internal sealed class OpensslAuthority : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly HttpListener listener = new();
    private readonly Task serving;
    private int requests;

    public OpensslAuthority()
    {
        File.WriteAllText(At("ext"), "keyUsage=critical,digitalSignature\nextendedKeyUsage=critical,timeStamping\n");
        File.WriteAllText(At("serial"), "01\n");
        File.WriteAllText(
            At("cnf"),
            $"""
            [tsa]
            default_tsa = quay
            [quay]
            serial = {At("serial")}
            signer_cert = {At("tsa.pem")}
            certs = {At("ca.pem")}
            signer_key = {At("tsa.key")}
            signer_digest = sha256
            default_policy = 1.2.3.4.1
            digests = sha256
            accuracy = secs:1
            ess_cert_id_alg = sha256
            """
        );
        Run(
            "req",
            "-x509",
            "-newkey",
            "rsa:2048",
            "-nodes",
            "-keyout",
            At("ca.key"),
            "-out",
            At("ca.pem"),
            "-subj",
            "/CN=Quay authorities",
            "-days",
            "30"
        );
        Run(
            "req",
            "-new",
            "-newkey",
            "rsa:2048",
            "-nodes",
            "-keyout",
            At("tsa.key"),
            "-out",
            At("tsa.csr"),
            "-subj",
            "/CN=Quay time"
        );
        Run(
            "x509",
            "-req",
            "-in",
            At("tsa.csr"),
            "-CA",
            At("ca.pem"),
            "-CAkey",
            At("ca.key"),
            "-CAcreateserial",
            "-out",
            At("tsa.pem"),
            "-extfile",
            At("ext"),
            "-days",
            "30"
        );
        Address = $"http://127.0.0.1:{FreePort()}/stamp/";
        listener.Prefixes.Add(Address);
        listener.Start();
        serving = Task.Run(ServeAsync);
    }

    public string Address { get; }

    public string Certificates => At("ca.pem");

    public int Requests => Volatile.Read(ref requests);

    /// <summary>The last request as it came.</summary>
    public byte[] LastRequest => File.ReadAllBytes(At("query"));

    public string At(string name) => folder.At(name);

    public void Stop() => listener.Stop();

    public void Dispose()
    {
        listener.Close();
        serving.Wait(TimeSpan.FromSeconds(30));
        folder.Dispose();
    }

    public static void Run(params string[] words)
    {
        using var process = Process.Start(
            new ProcessStartInfo("openssl", words) { RedirectStandardError = true, RedirectStandardOutput = true }
        )!;
        var output = process.StandardOutput.ReadToEndAsync();
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"openssl {string.Join(' ', words)}: {said}{output.Result}");
    }

    private async Task ServeAsync()
    {
        while (listener.IsListening)
        {
            HttpListenerContext asked;
            try
            {
                asked = await listener.GetContextAsync();
            }
            catch (Exception ended)
                when (ended is HttpListenerException or ObjectDisposedException or InvalidOperationException)
            {
                return;
            }

            await using (var query = File.Create(At("query")))
            {
                await asked.Request.InputStream.CopyToAsync(query);
            }

            Run("ts", "-reply", "-config", At("cnf"), "-queryfile", At("query"), "-out", At("reply"));
            asked.Response.ContentType = "application/timestamp-reply";
            await asked.Response.OutputStream.WriteAsync(await File.ReadAllBytesAsync(At("reply")));
            asked.Response.Close();
            Interlocked.Increment(ref requests);
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
