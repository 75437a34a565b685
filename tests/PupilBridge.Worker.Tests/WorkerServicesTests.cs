using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests;

public sealed class WorkerServicesTests
{
    private static IHost Build(BridgeOptions options)
    {
        var builder = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings());
        builder.Logging.ClearProviders();
        builder.Services.AddPupilBridgeWorker(options, parts => parts with { FindPorts = () => [] });
        return builder.Build();
    }

    [Fact]
    public async Task The_bridge_runs_as_long_as_the_host_does()
    {
        using var folder = new TempFolder();
        using var host = Build(new BridgeOptions { DataFolder = folder.Path });
        var service = host.Services.GetRequiredService<BridgeService>();
        Assert.Throws<InvalidOperationException>(() => service.Bridge);
        await host.StartAsync();
        Assert.True(service.Bridge.Health.CanRecord);
        await Eventually.Is(() => service.Bridge.Health.Durable >= 2);

        await host.StopAsync().WaitAsync(TimeSpan.FromSeconds(2.5));
        using var again = Build(new BridgeOptions { DataFolder = folder.Path });
        await again.StartAsync();
        await again.StopAsync();
    }

    [Fact]
    public async Task Wrong_options_end_the_hosts_start_and_name_every_fault()
    {
        using var host = Build(new BridgeOptions { MaxPorts = 0, ScreenBacklog = 1 });
        var refused = await Assert.ThrowsAsync<OptionsValidationException>(() => host.StartAsync());
        Assert.Equal(3, refused.Failures.Count());
        Assert.Contains("Bridge:MaxPorts is '0'; allowed is a whole number from 1 to 256.", refused.Failures);
        await Assert.ThrowsAsync<OptionsValidationException>(() =>
            host.Services.GetRequiredService<BridgeService>().Opened
        );
    }
}
