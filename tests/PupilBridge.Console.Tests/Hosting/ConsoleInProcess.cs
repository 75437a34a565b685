using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
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

    /// <param name="adapt">Changes how it is served.</param>
    /// <param name="desks">Puts other desks in place of the mocked ones.</param>
    /// <param name="services">Adds or replaces services.</param>
    /// <param name="time">The clock; the system's if null.</param>
    public ConsoleInProcess(
        Func<ConsoleSettings, ConsoleSettings>? adapt = null,
        Func<ConsoleDesks, ConsoleDesks>? desks = null,
        Action<IServiceCollection>? services = null,
        TimeProvider? time = null
    )
    {
        Clinic
            .Setup(desk => desk.ListInstrumentsAsync(It.IsAny<CancellationToken>()))
            .ReturnsAsync(new InstrumentList(true, [], [], null));
        var settings = StartedConsole.Settings(folder);
        var mocked = new ConsoleDesks(Clinic.Object, Lanes.Object, Records.Object, Bench.Object, People.Object);
        app = StartedConsole.Start(
            adapt is null ? settings : adapt(settings),
            desks is null ? mocked : desks(mocked),
            time ?? TimeProvider.System,
            services
        );
        Browser = app.GetTestClient();
    }

    public Mock<IClinicDesk> Clinic { get; } = new();

    public Mock<ILaneDesk> Lanes { get; } = new();

    public Mock<IRecordDesk> Records { get; } = new();

    public Mock<IBenchDesk> Bench { get; } = new();

    public Mock<IPeopleDesk> People { get; } = new();

    public HttpClient Browser { get; }

    public void Dispose()
    {
        Browser.Dispose();
        app.DisposeAsync().AsTask().GetAwaiter().GetResult();
        folder.Delete(recursive: true);
    }
}
