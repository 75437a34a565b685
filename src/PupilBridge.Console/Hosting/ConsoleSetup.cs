using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Console.Assets;
using PupilBridge.Console.Lane;
using PupilBridge.Console.LaneApi;
using PupilBridge.Console.Layout;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.Report;
using PupilBridge.Exchange.WebApi;
using PupilBridge.Exchange.WebApi.Exports;

namespace PupilBridge.Console.Hosting;

/// <summary>Which services the console is made of, and which requests it answers; the same for the service and for tests.</summary>
public static class ConsoleSetup
{
    /// <summary>Adds the console's services.</summary>
    /// <param name="services">Where to.</param>
    /// <param name="settings">How it is served.</param>
    /// <param name="desks">What it goes through.</param>
    /// <param name="time">The clock.</param>
    public static void Add(IServiceCollection services, ConsoleSettings settings, ConsoleDesks desks, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(services);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(desks);
        ArgumentNullException.ThrowIfNull(time);
        services.AddSingleton(settings);
        services.AddSingleton(time);
        services.AddSingleton(desks);
        services.AddSingleton(desks.People);
        services.AddRouting();
        services.AddHttpContextAccessor();
        services.AddProblemDetails();
        SignInSetup.Add(services, settings);
        services.AddRazorComponents();
        PageSetup.Add(services);
        ApiDocument.Add(services);
        ExamExports.Add(
            services,
            settings.Fhir,
            new ReportSetting
            {
                ClinicName = settings.ClinicName,
                Zone = time.LocalTimeZone,
                WantsNames = settings.WantsNames,
            }
        );
    }

    /// <summary>Says which requests are answered, and how.</summary>
    /// <param name="app">The web application.</param>
    public static void Map(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        SignInSetup.UseOutside(app);
        WordlessAnswers.Use(app);
        FaultPages.Use(app);
        SignInSetup.UseLimits(app);
        app.UseRouting();
        SignInSetup.UseInside(app);
        AssetEndpoints.Map(app);
        SessionEndpoints.Map(app);
        PageSetup.Map(app);
        LaneEndpoints.Map(app);
        LaneApiEndpoints.Map(app);
        ApiDocument.Map(app);
        app.MapRazorComponents<App>();
    }
}
