using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Tests.Report;
using PupilBridge.Exchange.WebApi;
using PupilBridge.Exchange.WebApi.Exports;

namespace PupilBridge.Exchange.Tests.WebApi;

/// <summary>The web API over a desk whose exams a test sets. Who may ask is not its matter; that is tested with the console.</summary>
internal sealed class ExportHouse : IAsyncDisposable
{
    private readonly Mock<IRecordDesk> desk = new();
    private readonly WebApplication app;
    private int settingsAsked;

    public ExportHouse()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseTestServer();
        builder.Services.AddRouting();
        builder.Services.AddProblemDetails();
        builder.Services.AddSingleton(desk.Object);
        builder.Services.AddSingleton(new Mock<IClinicDesk>().Object);
        ApiDocument.Add(builder.Services);
        ExamExports.Add(
            builder.Services,
            () =>
            {
                settingsAsked++;
                return Settings;
            },
            Samples.Setting
        );
        app = builder.Build();
        app.UseRouting();
        WebApiRoutes.Map(app.MapGroup("/api/v1"));
        ApiDocument.Map(app);
        app.StartAsync().GetAwaiter().GetResult();
        Client = app.GetTestClient();
    }

    public static FhirSettings Settings { get; } = new() { House = "https://quayside.example/pupilbridge" };

    public HttpClient Client { get; }

    public int SettingsAsked => settingsAsked;

    public void Has(long exam, OutgoingRecord? record, int? version = null) =>
        desk.Setup(d => d.ShowOutgoingAsync(exam, version, It.IsAny<CancellationToken>())).ReturnsAsync(record);

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await app.DisposeAsync();
    }
}
