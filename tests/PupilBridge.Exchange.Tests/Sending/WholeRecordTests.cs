using Hl7.Fhir.Model;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Scenarios.Sending;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>The same way with whole records, as the service sends them.</summary>
public sealed class WholeRecordTests : SendingScene
{
    private static readonly FhirPayloads Payloads = new(
        new FhirSettings { House = "https://quayside.example/pupilbridge" }
    );

    [Fact]
    public async Task A_whole_record_arrives_once_though_the_answer_is_lost_is_amended_and_is_taken_back()
    {
        server.Faults = post => post == 1 ? ServerFault.CutsAfter : ServerFault.None;
        var exam = await house.SignAsync("Q-1001");
        await using var run = new SendingRun(house.Outbox, SendingRun.To(server), Payloads);
        await Settled(OutboxState.Sent, (exam, 1));
        await house.AmendAsync(exam);
        await Settled(OutboxState.Sent, (exam, 2));
        Assert.Equal([$"{exam}/1", $"{exam}/2"], server.Shelf.Arrivals);
        Assert.Single(server.Shelf.All<Patient>());
        Assert.Equal(2, server.Shelf.All<Provenance>().Count);
        var report = Assert.Single(server.Shelf.All<DiagnosticReport>());
        Assert.Equal(DiagnosticReport.DiagnosticReportStatus.Amended, report.Status);
        Assert.NotEmpty(server.Shelf.All<Observation>());
        Assert.All(server.Shelf.All<Observation>(), one => Assert.Equal(ObservationStatus.Amended, one.Status));

        await house.SetAsideAsync(exam);
        await Settled(OutboxState.Withdrawn, (exam, 1), (exam, 2));
        Assert.All(
            server.Shelf.All<DiagnosticReport>(),
            report => Assert.Equal(DiagnosticReport.DiagnosticReportStatus.EnteredInError, report.Status)
        );
        Assert.All(server.Shelf.All<Observation>(), one => Assert.Equal(ObservationStatus.EnteredInError, one.Status));
    }

    [Fact]
    public async Task A_record_that_would_stand_under_the_example_address_is_refused_before_anything_leaves()
    {
        var exam = await house.SignAsync("Q-1001");
        await using var run = new SendingRun(house.Outbox, SendingRun.To(server), new FhirPayloads(new FhirSettings()));
        await Settled(OutboxState.Refused, (exam, 1));
        Assert.Equal(0, server.Posts);
    }
}
