using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.Tests.Hosting;

/// <summary>The console in this process, over desks that a test provides, without a socket.</summary>
internal sealed class ConsoleInProcess : IDisposable
{
    private readonly WebApplication app;
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-console-");

    public ConsoleInProcess(Func<ConsoleSettings, ConsoleSettings>? adapt = null)
    {
        Clinic
            .Setup(desk => desk.ListInstrumentsAsync(It.IsAny<CancellationToken>()))
            .ReturnsAsync(new InstrumentList(true, [], [], null));
        var settings = new ConsoleSettings
        {
            DataFolder = folder.FullName,
            ProgramVersion = "0.0-test",
            Port = 0,
        };
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "PupilBridge.Console" }
        );
        builder.WebHost.UseTestServer();
        ConsoleSetup.Add(
            builder.Services,
            adapt is null ? settings : adapt(settings),
            new ConsoleDesks(Clinic.Object, Lanes.Object, Records.Object, People.Object),
            TimeProvider.System
        );
        app = builder.Build();
        ConsoleSetup.Map(app);
        app.StartAsync().GetAwaiter().GetResult();
        Browser = app.GetTestClient();
    }

    public Mock<IClinicDesk> Clinic { get; } = new();

    public Mock<ILaneDesk> Lanes { get; } = new();

    public Mock<IRecordDesk> Records { get; } = new();

    public Mock<IPeopleDesk> People { get; } = new();

    public HttpClient Browser { get; }

    public void Dispose()
    {
        Browser.Dispose();
        app.DisposeAsync().AsTask().GetAwaiter().GetResult();
        folder.Delete(recursive: true);
    }
}
