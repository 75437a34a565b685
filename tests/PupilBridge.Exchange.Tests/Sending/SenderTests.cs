using Hl7.Fhir.Model;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>A real bridge sends to a real HTTP server on loopback, which does wrong what it is told to.</summary>
public sealed class SenderTests : SendingScene
{
    [Theory]
    [InlineData(ServerFault.None)]
    [InlineData(ServerFault.Slow)]
    [InlineData(ServerFault.Overloaded)]
    [InlineData(ServerFault.Fails)]
    [InlineData(ServerFault.WantsPatience)]
    [InlineData(ServerFault.CutsBefore)]
    [InlineData(ServerFault.CutsAfter)]
    [InlineData(ServerFault.LiesBefore)]
    [InlineData(ServerFault.LiesAfter)]
    [InlineData(ServerFault.StoresLate)]
    public async Task Whatever_goes_wrong_once_each_version_arrives_once_and_a_patients_in_order(ServerFault fault)
    {
        server.Faults = post => post == 2 ? fault : ServerFault.None;
        server.Slowness = TimeSpan.FromSeconds(1);
        var first = await house.SignAsync("Q-1001");
        var second = await house.SignAsync("Q-1001");
        var other = await house.SignAsync("Q-1002");
        await house.AmendAsync(first);
        var settings = SendingRun.To(server) with { Timeout = TimeSpan.FromMilliseconds(500) };

        await using (new SendingRun(house.Outbox, settings))
        {
            await Settled(OutboxState.Sent, (first, 1), (second, 1), (other, 1), (first, 2));
            // A late copy would come now.
            await Task.Delay(2 * server.Lateness);
        }

        Assert.Equal([$"{first}/1", $"{second}/1", $"{first}/2"], ArrivalsOf(first, second));
        Assert.Equal([$"{other}/1"], ArrivalsOf(other));
        // An amended report is the same report.
        Assert.Equal(3, server.Shelf.All<DiagnosticReport>().Count);
        Assert.Equal(3, server.Shelf.All<Observation>().Count);
        Assert.Equal(2, server.Shelf.All<Patient>().Count);
    }

    [Fact]
    public async Task A_server_that_makes_a_second_copy_is_found_out_stopped_and_shown()
    {
        server.Shelf.HonoursConditions = false;
        server.Faults = post => post == 1 ? ServerFault.CutsAfter : ServerFault.None;
        server.Shelf.SearchesThatFindNothing = 1;
        var exam = await house.SignAsync("Q-1001");

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Doubled, (exam, 1));
            await Task.Delay(300);
        }

        Assert.Equal(2, server.Posts);
        Assert.Contains("second copy", house.Item(exam).Last!.Reason, StringComparison.Ordinal);
        var shown = Assert.Single(house.House.ReadLog(log => log.ListOutbox(ExamLog.OutboxList.Stopped)).Items);
        Assert.Equal($"{exam}-1", shown.Id);
    }

    [Fact]
    public async Task The_same_repeat_makes_no_second_copy_where_conditions_are_honoured()
    {
        server.Faults = post => post == 1 ? ServerFault.CutsAfter : ServerFault.None;
        server.Shelf.SearchesThatFindNothing = 1;
        var exam = await house.SignAsync("Q-1001");

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.Equal(2, server.Posts);
        Assert.Single(server.Shelf.All<DiagnosticReport>());
    }

    [Fact]
    public async Task Where_more_than_one_fits_the_condition_nothing_is_added_and_a_person_must_look()
    {
        var exam = await house.SignAsync("Q-1001");
        var made = new PlainPayloads().Make(house.Outbox.Read(exam.Value, 1)!, []);
        server.Shelf.HonoursConditions = false;
        server.Shelf.Take(System.Text.Encoding.UTF8.GetString(made.Body.Span));
        server.Shelf.Take(System.Text.Encoding.UTF8.GetString(made.Body.Span));
        server.Shelf.HonoursConditions = true;

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Doubled, (exam, 1));
        }

        Assert.Equal(412, house.Item(exam).Last!.AnswerCode);
        Assert.Equal(2, server.Shelf.All<DiagnosticReport>().Count);
    }

    [Fact]
    public async Task A_refused_version_rests_with_its_reason_lets_others_pass_and_goes_when_a_person_says_so()
    {
        server.Faults = post => post == 1 ? ServerFault.Refuses : ServerFault.None;
        var refused = await house.SignAsync("Q-1001");
        var next = await house.SignAsync("Q-1001");

        await using var run = new SendingRun(house.Outbox, SendingRun.To(server));
        await Settled(OutboxState.Refused, (refused, 1));
        await Settled(OutboxState.Sent, (next, 1));
        Assert.Equal(
            (400, "it answered 400: this house takes no such record"),
            (house.Item(refused).Last!.AnswerCode, house.Item(refused).Last!.Reason)
        );

        await house.DecideAsync(refused, 1, SendingDecision.Again, "they have put it right");
        await Settled(OutboxState.Sent, (refused, 1));
        Assert.Contains(
            house.Exam(refused).Sendings,
            step => step.Who.Value == "AD" && step.Reason == "they have put it right"
        );
    }

    [Fact]
    public async Task What_a_person_withholds_is_not_sent()
    {
        var exam = await house.SignAsync("Q-1001");
        await house.DecideAsync(exam, 1, SendingDecision.Withheld, "sent on paper");
        var other = await house.SignAsync("Q-1001");

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (other, 1));
        }

        Assert.Equal(OutboxState.Withheld, house.State(exam));
        Assert.Equal([$"{other}/1"], server.Shelf.Arrivals);
    }

    [Fact]
    public async Task An_answer_that_cannot_be_believed_is_journalled_once_and_never_counted_as_sent()
    {
        server.Faults = post => post <= 3 ? ServerFault.LiesBefore : ServerFault.None;
        var exam = await house.SignAsync("Q-1001");

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.Equal(
            [SendingOutcome.Begun, SendingOutcome.Doubtful, SendingOutcome.Sent],
            house.Exam(exam).Sendings.Select(step => step.Outcome)
        );
        Assert.Single(server.Shelf.Arrivals);
        Assert.True(server.Searches >= 3, "It was not asked for before it was sent again.");
    }

    [Fact]
    public async Task While_the_question_gets_no_answer_that_can_be_believed_nothing_is_sent_again()
    {
        server.Faults = post => post == 1 ? ServerFault.CutsBefore : ServerFault.None;
        server.LiesAboutSearches = true;
        var exam = await house.SignAsync("Q-1001");

        await using var run = new SendingRun(house.Outbox, SendingRun.To(server));
        await Eventually.Is(() => server.Searches > 3);
        Assert.Equal(1, server.Posts);
        Assert.Equal(OutboxState.Begun, house.State(exam));

        server.LiesAboutSearches = false;
        await Settled(OutboxState.Sent, (exam, 1));
        Assert.Single(server.Shelf.Arrivals);
    }

    [Fact]
    public async Task A_server_that_wants_patience_gets_it()
    {
        var posted = new List<DateTimeOffset>();
        server.Faults = post =>
        {
            posted.Add(TimeProvider.System.GetUtcNow());
            return post == 1 ? ServerFault.WantsPatience : ServerFault.None;
        };
        var exam = await house.SignAsync("Q-1001");

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1));
        }

        Assert.True(posted[1] - posted[0] >= TimeSpan.FromSeconds(0.95), $"{posted[1] - posted[0]}");
    }

    private IReadOnlyList<string> ArrivalsOf(params ExamId[] exams) =>
        [
            .. server.Shelf.Arrivals.Where(key =>
                exams.Any(exam => key.StartsWith($"{exam}/", StringComparison.Ordinal))
            ),
        ];
}
