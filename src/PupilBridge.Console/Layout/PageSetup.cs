using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Console.Bench;
using PupilBridge.Console.Plots;
using PupilBridge.Console.Reports;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Layout;

/// <summary>What the pages need besides the desks.</summary>
internal static class PageSetup
{
    /// <summary>Adds their services.</summary>
    public static void Add(IServiceCollection services)
    {
        services.AddSingleton<HouseTime>();
        services.AddScoped<Said>();
    }

    /// <summary>Maps what stands beside the pages.</summary>
    public static void Map(WebApplication app)
    {
        FaceEndpoint.Map(app);
        SizesPlotEndpoint.Map(app);
        ReportEndpoints.Map(app);
        DriftPlotEndpoint.Map(app);
        RunEvents.Map(app);
        CertificateEndpoints.Map(app);
    }
}
