using Hl7.Fhir.Model;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>An amended record is the same report at the server, whatever goes wrong meanwhile.</summary>
public sealed class AmendmentTests : SendingScene
{
    [Fact]
    public async Task An_earlier_version_sent_late_never_takes_the_place_of_the_amended_one()
    {
        var exam = await house.SignAsync("Q-1001");
        await house.DecideAsync(exam, 1, SendingDecision.Withheld, "a word is wrong");
        await house.AmendAsync(exam);
        await using var run = new SendingRun(house.Outbox, SendingRun.To(server));
        await Settled(OutboxState.Sent, (exam, 2));

        await house.DecideAsync(exam, 1, SendingDecision.Again, "by mistake");
        await Settled(OutboxState.Sent, (exam, 1));

        Assert.Equal("version 2, which amends it, is there already", house.Item(exam).Last!.Reason);
        Assert.Equal([$"{exam}/2"], server.Shelf.Arrivals);
        Assert.Equal(
            DiagnosticReport.DiagnosticReportStatus.Amended,
            Assert.Single(server.Shelf.All<DiagnosticReport>()).Status
        );
    }

    [Fact]
    public async Task A_server_that_makes_a_second_report_of_an_amendment_is_found_out()
    {
        var exam = await house.SignAsync("Q-1001");
        await using var run = new SendingRun(house.Outbox, SendingRun.To(server));
        await Settled(OutboxState.Sent, (exam, 1));
        server.Shelf.HonoursConditions = false;

        await house.AmendAsync(exam);

        await Settled(OutboxState.Doubled, (exam, 2));
        Assert.Contains("second copy", house.Item(exam, 2).Last!.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(ServerFault.CutsBefore)]
    [InlineData(ServerFault.CutsAfter)]
    [InlineData(ServerFault.LiesAfter)]
    public async Task An_amendment_whose_answer_is_lost_is_looked_for_by_its_version(ServerFault fault)
    {
        server.Faults = post => post == 2 ? fault : ServerFault.None;
        var exam = await house.SignAsync("Q-1001");
        await house.AmendAsync(exam);

        await using (new SendingRun(house.Outbox, SendingRun.To(server)))
        {
            await Settled(OutboxState.Sent, (exam, 1), (exam, 2));
        }

        Assert.Equal([$"{exam}/1", $"{exam}/2"], server.Shelf.Arrivals);
        Assert.Equal(fault == ServerFault.CutsBefore ? 3 : 2, server.Posts);
    }
}
