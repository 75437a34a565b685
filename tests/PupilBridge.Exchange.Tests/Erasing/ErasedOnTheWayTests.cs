using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Erasing;

/// <summary>
/// A patient erased while records are on their way to another system: what had not begun never goes out, and whoever erases is told of
/// all that had.
/// </summary>
public sealed class ErasedOnTheWayTests : IAsyncLifetime
{
    private const string Patient = "Q-1001-GOESAWAY";
    private const string NotSent = "Nothing of it had been sent";
    private readonly ErasingHouse house = new();
    private SmallFhirServer server = null!;

    public async Task InitializeAsync() => server = await SmallFhirServer.StartAsync();

    public async Task DisposeAsync()
    {
        await server.DisposeAsync();
        await house.DisposeAsync();
    }

    [Fact]
    public async Task What_waits_never_goes_out()
    {
        var exam = await house.Exams.SignAsync(Patient);
        Assert.Contains(NotSent, await house.ErasedAsync(Patient), StringComparison.Ordinal);
        await OthersGoOut();
        Assert.Equal(OutboxState.NotToSend, house.Exams.State(exam));
        Assert.Equal(1, server.Posts);
    }

    [Fact]
    public async Task What_was_begun_and_never_answered_is_told_and_not_tried_again()
    {
        server.Faults = _ => ServerFault.CutsBefore;
        var exam = await house.Exams.SignAsync(Patient);
        await using (new SendingRun(house.Exams.Outbox, SendingRun.To(server)))
        {
            await Eventually.Is(() => server.Posts > 0);
        }

        Assert.Equal(OutboxState.Begun, house.Exams.State(exam));
        var told = await house.ErasedAsync(Patient);
        Assert.Contains($"exam {exam} version 1 at hospital", told, StringComparison.Ordinal);

        server.Faults = _ => ServerFault.None;
        await OthersGoOut();
        Assert.Equal(OutboxState.NotToSend, house.Exams.State(exam));
        Assert.DoesNotContain($"{exam}/1", server.Shelf.Arrivals);
    }

    [Fact]
    public async Task What_was_sent_is_told_with_the_place_where_it_is()
    {
        var exam = await house.Exams.SignAsync(Patient);
        await using (new SendingRun(house.Exams.Outbox, SendingRun.To(server)))
        {
            await Eventually.Is(() => house.Exams.State(exam) == OutboxState.Sent);
        }

        var told = await house.ErasedAsync(Patient);
        Assert.Contains($"exam {exam} version 1 at hospital (", told, StringComparison.Ordinal);
        Assert.Contains(house.Exams.Item(exam).Last!.Location!, told, StringComparison.Ordinal);
        Assert.Equal(OutboxState.Sent, house.Exams.State(exam));
    }

    [Fact]
    public async Task What_was_read_and_not_yet_begun_when_the_order_came_does_not_go_out_either()
    {
        var exam = await house.Exams.SignAsync(Patient);
        var outbox = new ErasingBefore(house, SendingOutcome.Begun);
        await using (new SendingRun(outbox, SendingRun.To(server)))
        {
            await Eventually.Is(() => outbox.Told is not null && house.Exams.State(exam) == OutboxState.NotToSend);
        }

        await OthersGoOut();
        Assert.Contains(NotSent, outbox.Told, StringComparison.Ordinal);
        Assert.Equal(1, server.Posts);
        Assert.DoesNotContain($"{exam}/1", server.Shelf.Arrivals);
    }

    [Fact]
    public async Task What_another_system_answers_after_the_order_is_not_kept_in_words()
    {
        server.Faults = _ => ServerFault.Refuses;
        var exam = await house.Exams.SignAsync(Patient);
        var outbox = new ErasingBefore(house, SendingOutcome.Refused);
        await using (new SendingRun(outbox, SendingRun.To(server)))
        {
            await Eventually.Is(() =>
                house.Exams.Exam(exam).Sendings.Any(step => step.Outcome == SendingOutcome.Refused)
            );
        }

        Assert.Contains($"exam {exam} version 1 at hospital", outbox.Told, StringComparison.Ordinal);
        Assert.Equal("", house.Exams.Exam(exam).Sendings[^1].Reason);
        house.NowhereOnDisk("takes no such record");
    }

    /// <summary>Another patient's record goes out meanwhile, so that it is sure that the sender has looked at everything.</summary>
    private async Task OthersGoOut()
    {
        var other = await house.Exams.SignAsync("Q-1002");
        await using var run = new SendingRun(house.Exams.Outbox, SendingRun.To(server));
        await Eventually.Is(() => house.Exams.State(other) == OutboxState.Sent);
    }

    /// <summary>An outbox in whose house the patient is erased at the moment before a step is noted.</summary>
    private sealed class ErasingBefore(ErasingHouse house, SendingOutcome outcome) : IOutbox
    {
        private readonly HouseOutbox outbox = house.Exams.Outbox;

        public string? Told { get; private set; }

        public (IReadOnlyList<OutboxTask> Items, string? Next) ListOpen(string? after, int limit) =>
            outbox.ListOpen(after, limit);

        public OutboxTask? Look(long exam, int version) => outbox.Look(exam, version);

        public OutgoingRecord? Read(long exam, int version) => outbox.Read(exam, version);

        public IReadOnlyList<OutgoingRecord> ReadEarlier(long exam, int version) => outbox.ReadEarlier(exam, version);

        public async Task NoteAsync(OutboxTask task, OutboxStep step, CancellationToken cancellation)
        {
            if (step.Outcome == outcome && Told is null)
            {
                Told = await house.ErasedAsync(Patient);
            }

            await outbox.NoteAsync(task, step, cancellation);
        }
    }
}
