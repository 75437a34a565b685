using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Text;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Journal;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>
/// Puts the parts of the service together: the worker, people and the clinic's desks over it, the local socket and the console over those. They start
/// in this order and stop in the other, so that nobody calls a desk that is not there.
/// </summary>
internal static class BridgeHost
{
    /// <summary>
    /// How long the host waits for a stop. The worker's own steps add up to 2 s at the worst, and console, sending and desk stop before it; on a
    /// machine that is busy with something else all of them together took longer than 2.5 s, and a stop that was in order ended as an
    /// unforeseen fault. So the host's patience never ends first; systemd's is longer still (docs/systemd).
    /// </summary>
    public static readonly TimeSpan StopWithin = TimeSpan.FromSeconds(8);

    /// <summary>Builds the host; nothing is opened yet.</summary>
    /// <param name="settings">The settings, checked.</param>
    /// <param name="time">The clock.</param>
    /// <param name="log">Chooses where messages go.</param>
    /// <param name="adapt">Changes the worker's parts, as the demo does; null for none.</param>
    /// <returns>The host.</returns>
    public static IHost Build(
        Settings settings,
        TimeProvider time,
        Action<ILoggingBuilder> log,
        Func<BridgeParts, BridgeParts>? adapt = null
    )
    {
        var builder = Host.CreateEmptyApplicationBuilder(
            new HostApplicationBuilderSettings { ApplicationName = "pupilbridge", DisableDefaults = true }
        );
        builder.Logging.AddConfiguration(settings.Root.GetSection("Logging"));
        // Its own messages name the data folder and the ports; the framework's would say it again in other words.
        builder.Logging.AddFilter("Microsoft", LogLevel.Warning);
        // That the cookie keys lie in a private folder and are not sealed once more is as intended.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        // A start that fails is told once, by the command, with what to do next.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting", LogLevel.Critical);
        log(builder.Logging);
        var services = builder.Services;
        services.AddSystemd();
        services.AddWindowsService(options => options.ServiceName = "PupilBridge");
        services.Configure<HostOptions>(options => options.ShutdownTimeout = StopWithin);
        services.AddSingleton(time);
        services.AddSingleton(settings.Desk);
        BridgeParts? made = null;
        services.AddPupilBridgeWorker(
            settings.Bridge,
            parts =>
            {
                var (keys, encrypt) = MasterKeys.ToServe(settings, time);
                parts = parts with { ProgramVersion = DeskHello.Own.Program, Keys = keys, Encrypt = encrypt };
                return made = adapt is null ? parts : adapt(parts);
            }
        );
        services.AddSingleton(provider =>
        {
            provider.GetRequiredService<BridgeService>();
            return made!;
        });
        services.AddSingleton(provider => AuditOf(provider));
        services.AddSingleton(settings.Lockout);
        services.AddSingleton<PeopleService>();
        services.AddHostedService(provider => provider.GetRequiredService<PeopleService>());
        services.AddSingleton(settings.DayListHeadings);
        services.AddSingleton(settings.Lanes);
        services.AddSingleton(settings.Criteria);
        services.AddSingleton(settings.Bench);
        services.AddSingleton<SendingNews>();
        services.AddSingleton<HouseDesks>();
        services.AddSingleton<DeskService>();
        services.AddHostedService(provider => provider.GetRequiredService<DeskService>());
        AddWatchedFolder(services, settings);
        AddSending(services, settings);
        AddStamping(services, settings);
        AddConsole(services, settings);
        return builder.Build();
    }

    /// <summary>The audit stream; nothing is opened before the first note.</summary>
    private static AuditLog AuditOf(IServiceProvider provider)
    {
        var log = provider.GetRequiredService<ILoggerFactory>().CreateLogger("PupilBridge.Audit");
        var parts = provider.GetRequiredService<BridgeParts>();
        var service = provider.GetRequiredService<BridgeService>();
        return new AuditLog(
            new AuditParts
            {
                House = new JournalFolder(parts.Options.DataFolder) { Keys = parts.Keys },
                Time = provider.GetRequiredService<TimeProvider>(),
                ProgramVersion = DeskHello.Own.Program,
                Encrypt = parts.Encrypt,
                SubjectKeys = () => service.Bridge.SubjectKeys,
                Remark = words => AuditRemarks.Say(log, words),
            }
        );
    }

    private static void AddWatchedFolder(IServiceCollection services, Settings settings)
    {
        if (settings.DayLists is { } watched)
        {
            services.AddSingleton(watched);
            services.AddHostedService<DayListService>();
        }
    }

    /// <summary>Nothing leaves the house unless an administrator set a destination.</summary>
    private static void AddSending(IServiceCollection services, Settings settings)
    {
        if (settings.Sending is { } sending)
        {
            services.AddSingleton(sending);
            services.AddSingleton(settings.Fhir);
            services.AddHostedService<OutboxService>();
        }
    }

    /// <summary>Nobody is asked for time stamps unless an administrator named an authority.</summary>
    private static void AddStamping(IServiceCollection services, Settings settings)
    {
        if (StampOptions.AuthorityOf(settings.Root) is { } address)
        {
            services.AddSingleton(new StampWish(address));
            services.AddHostedService<StampService>();
        }
    }

    /// <summary>The console starts last and stops first.</summary>
    private static void AddConsole(IServiceCollection services, Settings settings)
    {
        if (settings.Web is not { } web)
        {
            return;
        }

        HouseLanguage.Use(web.Language);
        services.AddHostedService(provider => new ConsoleService(
            web,
            () => provider.GetRequiredService<HouseDesks>().ForConsole,
            provider.GetRequiredService<TimeProvider>(),
            provider.GetRequiredService<ILoggerFactory>()
        ));
    }

    /// <summary>Messages on standard error, in the format of the surroundings.</summary>
    /// <param name="logging">Where to add them.</param>
    public static void LogToConsole(ILoggingBuilder logging)
    {
        logging.AddConsole(options =>
        {
            options.FormatterName = PlainLines.FormatName;
            options.LogToStandardErrorThreshold = LogLevel.Trace;
        });
        logging.AddConsoleFormatter<PlainLines, ConsoleFormatterOptions>();
    }
}
