using System.Net;
using System.Security.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.Hosting;

/// <summary>
/// The console's web server in the service's process. It is a host of its own, so that whatever goes wrong with it (a port that
/// is taken, a certificate that cannot be read) leaves the readings alone.
/// </summary>
public sealed class ConsoleServer : IAsyncDisposable
{
    private readonly WebApplication app;
    private readonly string addressFile;

    private ConsoleServer(WebApplication app, string addressFile, Uri address) =>
        (this.app, this.addressFile, Address) = (app, addressFile, address);

    /// <summary>Where the console is.</summary>
    public Uri Address { get; }

    /// <summary>Starts the console.</summary>
    /// <param name="settings">How it is served.</param>
    /// <param name="desks">What it goes through.</param>
    /// <param name="time">The clock.</param>
    /// <param name="log">Where messages go.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="IOException">The address cannot be listened on.</exception>
    public static async Task<ConsoleServer> StartAsync(
        ConsoleSettings settings,
        ConsoleDesks desks,
        TimeProvider time,
        ILoggerFactory log,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (ListeningRule.Obstacle(settings) is { } obstacle)
        {
            throw new IOException(obstacle);
        }

        var certificate = ListeningRule.Certificate(settings);
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "PupilBridge.Console" }
        );
        builder.Services.AddSingleton(log);
        builder.Services.AddSingleton<IHostLifetime, NoLifetime>();
        builder.WebHost.UseKestrelCore();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            ServerLimits.Set(kestrel.Limits);
            kestrel.Listen(
                IPAddress.Parse(settings.Address),
                settings.Port,
                listen =>
                {
                    if (certificate is not null)
                    {
                        listen.UseHttps(
                            certificate,
                            // Said here and not left to the machine: what is older than TLS 1.2 is refused (RFC 8996).
                            https => https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13
                        );
                    }
                }
            );
        });
        ConsoleSetup.Add(builder.Services, settings, desks, time);
        var app = builder.Build();
        ConsoleSetup.Map(app);
        try
        {
            await app.StartAsync(cancellation).ConfigureAwait(false);
            var address = app
                .Services.GetRequiredService<IServer>()
                .Features.Get<IServerAddressesFeature>()!
                .Addresses.First();
            var file = Path.Combine(settings.DataFolder, ConsoleSettings.AddressFileName);
            await File.WriteAllTextAsync(file, address + "\n", cancellation).ConfigureAwait(false);
            return new ConsoleServer(app, file, new Uri(address));
        }
        catch
        {
            await app.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(1));
        try
        {
            await app.StopAsync(patience.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // Streams that did not end in time are cut by disposing below.
        }

        File.Delete(addressFile);
        await app.DisposeAsync().ConfigureAwait(false);
    }

    /// <summary>The service's own host listens to signals; this one does as it is told.</summary>
    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
