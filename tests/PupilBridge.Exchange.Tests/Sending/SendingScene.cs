using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>A house in which exams are signed, and the server that the records go to; both anew for each test.</summary>
public abstract class SendingScene : IAsyncLifetime
{
    protected readonly SendingHouse house = new();
    protected SmallFhirServer server = null!;

    public async Task InitializeAsync() => server = await SmallFhirServer.StartAsync();

    public async Task DisposeAsync()
    {
        await server.DisposeAsync();
        await house.DisposeAsync();
    }

    /// <summary>Waits until the journal has each of the versions in that state.</summary>
    protected Task Settled(OutboxState state, params (ExamId Exam, int Version)[] versions) =>
        Eventually.Is(
            () => versions.All(one => house.State(one.Exam, one.Version) == state),
            () => string.Join("; ", versions.Select(one => house.Item(one.Exam, one.Version)))
        );
}
