using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>outbox list|retry|withhold</c> on a data folder without a service.</summary>
[SupportedOSPlatform("linux")]
public sealed class OutboxTests : IAsyncLifetime
{
    private static readonly string[] Why = ["--reason", "they have put it right", "--who", "AD"];

    private readonly SendingHouse house = new();
    private ExamId exam;

    public async Task InitializeAsync() => exam = await house.SignAsync("Q-1001");

    public async Task DisposeAsync() => await house.DisposeAsync();

    [Fact]
    public async Task What_is_signed_waits_and_nothing_rests()
    {
        await house.StopAsync();
        var stopped = await Run("outbox", "list");
        Assert.Equal(ExitCode.Done, stopped.Code);
        Assert.Contains("Nothing is listed.", stopped.Error, StringComparison.Ordinal);
        var open = await Run("outbox", "list", "--part", "open");
        var line = Assert.Single(open.Lines, one => one.StartsWith($"{exam}-1 ", StringComparison.Ordinal));
        Assert.Contains("Q-1001", line, StringComparison.Ordinal);
        Assert.Contains("waiting", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_as_json_leads_on_to_the_next()
    {
        var second = await house.SignAsync("Q-1002");
        await house.StopAsync();
        using var first = JsonDocument.Parse(
            (await Run("outbox", "list", "--part", "open", "--limit", "1", "--json")).Out
        );
        Assert.Equal([exam.Value], ExamsOn(first));
        Assert.Equal("waiting", first.RootElement.GetProperty("items")[0].GetProperty("state").GetString());
        var next = first.RootElement.GetProperty("next").GetString()!;
        using var rest = JsonDocument.Parse(
            (await Run("outbox", "list", "--part", "open", "--after", next, "--json")).Out
        );
        Assert.Equal([second.Value], ExamsOn(rest));
        Assert.Equal(ExitCode.Refused, (await Run("outbox", "list", "--part", "open", "--after", "nowhere")).Code);
        Assert.Equal(ExitCode.Usage, (await Run("outbox", "list", "--part", "all")).Code);
    }

    [Fact]
    public async Task What_is_withheld_is_done_with_until_it_is_tried_again()
    {
        await house.StopAsync();
        var withheld = await Run(["outbox", "withhold", $"{exam}-1", .. Why]);
        Assert.Equal(ExitCode.Done, withheld.Code);
        Assert.Contains($"in exam {exam}", withheld.Out, StringComparison.Ordinal);
        Assert.Contains(
            "Nothing is listed.",
            (await Run("outbox", "list", "--part", "open")).Error,
            StringComparison.Ordinal
        );
        var settled = await Run("outbox", "list", "--part", "settled");
        Assert.Contains("withheld", settled.Out, StringComparison.Ordinal);
        Assert.Contains("they have put it right", settled.Out, StringComparison.Ordinal);
        var journal = await Run("journal", "list");
        Assert.Contains(journal.Lines, one => one.Contains("sending-decided", StringComparison.Ordinal));

        Assert.Equal(ExitCode.Done, (await Run(["outbox", "retry", $"{exam}-1", .. Why])).Code);
        Assert.Contains($"{exam}-1", (await Run("outbox", "list", "--part", "open")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task All_that_was_refused_is_listed_with_the_answer_and_sent_again_at_a_word()
    {
        await using var server = await SmallFhirServer.StartAsync();
        server.Faults = _ => ServerFault.Refuses;
        var second = await house.SignAsync("Q-1002");
        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Eventually.Is(() =>
                house.State(exam) == OutboxState.Refused && house.State(second) == OutboxState.Refused
            );
        }

        await house.StopAsync();
        var stopped = await Run("outbox", "list");
        Assert.Equal(2, stopped.Lines.Count(one => one.Contains("400", StringComparison.Ordinal)));
        Assert.Contains("this house takes no such record", stopped.Out, StringComparison.Ordinal);
        var again = await Run(["outbox", "retry", "--all", .. Why]);
        Assert.Equal(2, again.Lines.Count);
        Assert.Contains("Nothing is listed.", (await Run("outbox", "list")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_decided_is_refused_with_what_to_do()
    {
        await house.StopAsync();
        await Refused(ExitCode.Usage, "names no signed version", "retry", $"{exam}");
        await Refused(ExitCode.Usage, "names no signed version", "withhold", "one-two");
        await Refused(ExitCode.Usage, "It is not said which versions", "retry");
        await Refused(ExitCode.Usage, "It is not said which versions", "retry", $"{exam}-1", "--all");
        await Refused(ExitCode.Refused, "neither refused nor withheld", "retry", $"{exam}-1");
        await Refused(ExitCode.Refused, "has no signed version 2", "withhold", $"{exam}-2");
        Assert.Equal(ExitCode.Usage, (await Run("outbox", "withhold", $"{exam}-1", "--who", "AD")).Code);
        var unknown = await Run(["outbox", "withhold", "77777-1", .. Why]);
        Assert.Contains("77777", unknown.Error, StringComparison.Ordinal);
        Assert.NotEqual(ExitCode.Done, unknown.Code);
        Assert.Contains("waiting", (await Run("outbox", "list", "--part", "open")).Out, StringComparison.Ordinal);
    }

    private static IEnumerable<long> ExamsOn(JsonDocument page) =>
        page.RootElement.GetProperty("items").EnumerateArray().Select(one => one.GetProperty("exam").GetInt64());

    private async Task Refused(ExitCode code, string words, params string[] command)
    {
        var outcome = await Run(["outbox", .. command, .. Why]);
        Assert.Equal(code, outcome.Code);
        Assert.Contains(words, outcome.Error, StringComparison.Ordinal);
    }

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", house.DataFolder]);
}
