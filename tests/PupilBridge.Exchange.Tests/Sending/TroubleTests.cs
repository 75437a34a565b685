using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>While nothing gets through it is said why, nothing is lost, and everything goes on by itself.</summary>
public sealed class TroubleTests : SendingScene
{
    [Fact]
    public async Task A_server_that_vanishes_is_told_of_and_gets_everything_when_it_is_back()
    {
        await server.VanishAsync();
        var exams = new[] { await house.SignAsync("Q-1001"), await house.SignAsync("Q-1002") };

        await using var run = new SendingRun(house.Outbox, SendingRun.To(server));
        await Eventually.Is(() => run.News.State?.Trouble is not null);
        Assert.StartsWith(
            "hospital cannot be reached at http://127.0.0.1",
            run.News.State!.Trouble,
            StringComparison.Ordinal
        );

        await server.ComeBackAsync();
        await Settled(OutboxState.Sent, [.. exams.Select(exam => (exam, 1))]);
        await Eventually.Is(() => run.News.State!.Trouble is null);
        Assert.Equal(2, server.Shelf.Arrivals.Count);
    }

    [Fact]
    public async Task A_version_that_does_not_get_through_is_shown_with_the_reason_while_it_is_tried_again()
    {
        server.Faults = _ => ServerFault.Slow;
        server.Slowness = TimeSpan.FromSeconds(30);
        server.LiesAboutSearches = true;
        var exam = await house.SignAsync("Q-1001");
        var settings = SendingRun.To(server) with { Timeout = TimeSpan.FromMilliseconds(300) };

        await using var run = new SendingRun(house.Outbox, settings);
        await Eventually.Is(() => run.News.State?.Delays is [{ Tries: > 1 }]);
        var delay = Assert.Single(run.News.State!.Delays);
        Assert.Equal((exam.Value, 1), (delay.Exam, delay.Version));
        Assert.Equal("its answer to a search is no list of what was found", delay.Reason);
        Assert.Null(run.News.State.LastSentAt);

        server.LiesAboutSearches = false;
        await Settled(OutboxState.Sent, (exam, 1));
        await Eventually.Is(() => run.News.State!.Delays.Count == 0);
        Assert.NotNull(run.News.State.LastSentAt);
    }

    [Fact]
    public async Task A_secret_that_ran_out_makes_no_dead_letter_and_a_new_one_is_used_at_once()
    {
        server.Secret = "Bearer new";
        var secret = "Bearer old";
        var exam = await house.SignAsync("Q-1001");
        var settings = SendingRun.To(server) with
        {
            Header = new Exchange.Sending.SecretHeader("Authorization", () => secret),
        };

        await using var run = new SendingRun(house.Outbox, settings);
        await Eventually.Is(() => run.News.State?.Trouble is not null);
        Assert.Contains("Sending:Header", run.News.State!.Trouble, StringComparison.Ordinal);
        Assert.DoesNotContain("Bearer", run.News.State.Trouble, StringComparison.Ordinal);
        Assert.Equal(OutboxState.Begun, house.State(exam));

        secret = "Bearer new";
        await Settled(OutboxState.Sent, (exam, 1));
        Assert.Single(server.Shelf.Arrivals);
    }
}
