using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using PupilBridge.Worker.Options;

namespace PupilBridge.Worker;

/// <summary>Puts the worker into a host.</summary>
public static class WorkerServices
{
    /// <summary>
    /// Adds the bridge as a service. Its options are checked when the host starts; wrong ones end the start with
    /// <see cref="OptionsValidationException"/>, which names every fault.
    /// </summary>
    /// <param name="services">The host's services.</param>
    /// <param name="options">What a person set.</param>
    /// <param name="adapt">Changes the parts, for tests and simulations; null for none.</param>
    /// <returns>The services.</returns>
    public static IServiceCollection AddPupilBridgeWorker(
        this IServiceCollection services,
        BridgeOptions options,
        Func<BridgeParts, BridgeParts>? adapt = null
    )
    {
        ArgumentNullException.ThrowIfNull(services);
        ArgumentNullException.ThrowIfNull(options);
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton<IValidateOptions<BridgeOptions>, BridgeOptionsValidator>();
        services.AddSingleton(Microsoft.Extensions.Options.Options.Create(options));
        services.AddSingleton(provider =>
        {
            var parts = new BridgeParts
            {
                Options = options,
                Time = provider.GetRequiredService<TimeProvider>(),
                Logger = provider.GetRequiredService<ILoggerFactory>().CreateLogger("PupilBridge"),
            };
            return new BridgeService(adapt?.Invoke(parts) ?? parts);
        });
        services.AddSingleton<IHostedService>(provider => provider.GetRequiredService<BridgeService>());
        return services;
    }
}
