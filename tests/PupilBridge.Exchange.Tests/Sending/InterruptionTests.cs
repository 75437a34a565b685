using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>Cut off in the middle, started again, built anew: nothing is sent twice, nothing is forgotten.</summary>
public sealed class InterruptionTests : SendingScene
{
    [Theory]
    [InlineData(ServerFault.Slow, 1)]
    [InlineData(ServerFault.LiesBefore, 2)]
    public async Task Stopped_while_a_record_is_on_its_way_the_next_run_asks_before_it_sends(
        ServerFault fault,
        int posts
    )
    {
        server.Slowness = TimeSpan.FromSeconds(30);
        server.Faults = post => post == 1 ? fault : ServerFault.None;
        var exam = await house.SignAsync("Q-1001");
        await using (new SendingRun(house.Outbox, SendingRun.To(server) with { Timeout = TimeSpan.FromMinutes(1) }))
        {
            await Eventually.Is(() => server.Posts == 1);
            await Eventually.Is(() => fault != ServerFault.Slow || server.Shelf.Arrivals.Count == 1);
        }

        await house.RestartAsync();
        Assert.NotEqual(OutboxState.Sent, house.State(exam));
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.True(server.Posts <= posts + 1 && server.Searches >= 1, $"{server.Posts}, {server.Searches}");
        Assert.Single(server.Shelf.Arrivals);
    }

    [Fact]
    public async Task Killed_between_sending_and_the_journal_the_record_is_found_and_not_sent_again()
    {
        var exam = await house.SignAsync("Q-1001");
        var forgetful = new Forgetful(house.Outbox);
        await using (new SendingRun(forgetful, SendingRun.To(server)))
        {
            await forgetful.Killed.Task.WaitAsync(TimeSpan.FromSeconds(60));
        }

        Assert.Equal(OutboxState.Begun, house.State(exam));
        await house.RestartAsync();
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.Equal(1, server.Posts);
        Assert.Equal("it was there already, when it was asked", house.Item(exam).Last!.Reason);
    }

    [Fact]
    public async Task An_exam_log_made_anew_in_the_middle_sends_nothing_twice_and_forgets_nothing()
    {
        server.Faults = post => post == 3 ? ServerFault.Refuses : ServerFault.None;
        var exams = new List<ExamId>();
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            for (var i = 0; i < 12; i++)
            {
                exams.Add(await house.SignAsync($"Q-{1001 + (i % 3)}"));
                if (i is 4 or 8)
                {
                    await house.RebuildAsync();
                }
            }

            await Eventually.Is(() => exams.Count(exam => house.State(exam) == OutboxState.Sent) == 11);
        }

        await house.RestartAsync();
        await house.RebuildAsync();
        var posts = server.Posts;
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            var last = await house.SignAsync("Q-1001");
            await Settled(OutboxState.Sent, (last, 1));
        }

        Assert.Equal(posts + 1, server.Posts);
        Assert.Single(exams, exam => house.State(exam) == OutboxState.Refused);
        Assert.Equal(12, server.Shelf.Arrivals.Count);
        Assert.Equal(12, server.Shelf.Arrivals.Distinct().Count());
    }

    [Fact]
    public async Task An_exam_set_aside_before_it_went_is_never_sent()
    {
        var exam = await house.SignAsync("Q-1001");
        await house.SetAsideAsync(exam);
        var other = await house.SignAsync("Q-1001");
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (other, 1));
        }

        Assert.Equal([$"{other}/1"], server.Shelf.Arrivals);
        Assert.Equal(OutboxState.NotToSend, house.State(exam));
    }

    [Fact]
    public async Task An_exam_set_aside_after_it_went_is_marked_as_entered_in_error_with_all_its_parts()
    {
        var exam = await house.SignAsync("Q-1001");
        var other = await house.SignAsync("Q-1001");
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (other, 1));
            await house.SetAsideAsync(exam);
            await Settled(OutboxState.Withdrawn, (exam, 1));
        }

        var reports = server.Shelf.All<DiagnosticReport>().ToDictionary(r => r.Identifier[0].Value!, r => r.Status);
        Assert.Equal(DiagnosticReport.DiagnosticReportStatus.EnteredInError, reports[$"{exam}"]);
        Assert.Equal(DiagnosticReport.DiagnosticReportStatus.Final, reports[$"{other}"]);
        var sizes = server.Shelf.All<Observation>().ToDictionary(o => o.Identifier[0].Value!, o => o.Status);
        Assert.Equal(ObservationStatus.EnteredInError, sizes[$"{exam}/size"]);
        Assert.Equal(ObservationStatus.Final, sizes[$"{other}/size"]);
    }

    [Theory]
    [InlineData(Exchange.Sending.IdentityParts.Number, false)]
    [InlineData(Exchange.Sending.IdentityParts.Name, true)]
    public async Task Only_the_parts_of_an_identity_that_were_set_go(Exchange.Sending.IdentityParts parts, bool goes)
    {
        await house.NameAsync("Q-1001", "Jo Demo", new DateOnly(1980, 1, 2));
        var exam = await house.SignAsync("Q-1001");
        var settings = SendingRun.To(server) with
        {
            Identity = parts,
            Header = new Exchange.Sending.SecretHeader("Authorization", () => "Bearer abc"),
        };
        await using (new SendingRun(house.Outbox, settings))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.Equal(goes, server.LastPosted.Contains("Jo Demo", StringComparison.Ordinal));
        Assert.Contains("Q-1001", server.LastPosted, StringComparison.Ordinal);
        Assert.Equal("Bearer abc", server.LastAuthorization);
    }

    /// <summary>A journal that never hears that something was sent, as where the machine dies at that moment.</summary>
    private sealed class Forgetful(IOutbox outbox) : IOutbox
    {
        public TaskCompletionSource Killed { get; } = new();

        public (IReadOnlyList<OutboxTask> Items, string? Next) ListOpen(string? after, int limit) =>
            Killed.Task.IsCompleted ? ([], null) : outbox.ListOpen(after, limit);

        public OutboxTask? Look(long exam, int version) => Killed.Task.IsCompleted ? null : outbox.Look(exam, version);

        public OutgoingRecord? Read(long exam, int version) => outbox.Read(exam, version);

        public IReadOnlyList<OutgoingRecord> ReadEarlier(long exam, int version) => outbox.ReadEarlier(exam, version);

        public Task NoteAsync(OutboxTask task, OutboxStep step, CancellationToken cancellation)
        {
            if (step.Outcome == SendingOutcome.Sent)
            {
                Killed.TrySetResult();
                throw new IOException("the machine died");
            }

            return outbox.NoteAsync(task, step, cancellation);
        }
    }
}
