using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic;
using PupilBridge.Console.Assets;
using PupilBridge.Console.Lane;
using PupilBridge.Console.LaneApi;
using PupilBridge.Console.Layout;

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
        ArgumentNullException.ThrowIfNull(desks);
        services.AddSingleton(settings);
        services.AddSingleton(time);
        services.AddSingleton(desks);
        services.AddSingleton<IClinicDesk>(desks.Clinic);
        services.AddSingleton<ILaneDesk>(desks.Lanes);
        services.AddSingleton<IRecordDesk>(desks.Records);
        services.AddSingleton(desks.People);
        services.AddRouting();
        services.AddHttpContextAccessor();
        services.AddAntiforgery(options => options.HeaderName = FormTokenNeeded.HeaderName);
        services.AddProblemDetails();
        services.AddRazorComponents();
        PageSetup.Add(services);
    }

    /// <summary>Says which requests are answered, and how.</summary>
    /// <param name="app">The web application.</param>
    public static void Map(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        FaultPages.Use(app);
        app.UseRouting();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseAntiforgery();
        AssetEndpoints.Map(app);
        PageSetup.Map(app);
        LaneEndpoints.Map(app);
        LaneApiEndpoints.Map(app);
        app.MapRazorComponents<App>();
    }
}
