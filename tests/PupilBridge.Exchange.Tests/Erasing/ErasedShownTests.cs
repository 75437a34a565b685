using PupilBridge.Exams.Entries;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Exchange.Tests.Erasing;

/// <summary>Where a patient was erased, it says so, with day, person and order, and never stands empty.</summary>
public sealed class ErasedShownTests
{
    private const string Patient = "Q-1001-GOESAWAY";
    private const string Words =
        "What identified the patient was erased on 2026-03-02 by AD (ordered by DPO: request 17).";

    [Fact]
    public async Task A_signed_record_is_gone_and_record_exam_and_patient_say_by_whom()
    {
        await using var house = new ErasingHouse();
        var exam = await house.Exams.SignAsync(Patient);
        await house.ErasedAsync(Patient);

        using var records = house.Records();
        Assert.Null(await records.ShowOutgoingAsync(exam.Value, 1, default));
        Assert.Null(await records.ShowOutgoingAsync(exam.Value, null, default));
        var record = (await records.ShowRecordAsync(exam.Value, default))!;
        Assert.Equal(Words, record.Exam.Erasure!.Words);
        Assert.Equal(Words, record.Patient!.Erasure!.Words);
        var signed = Assert.Single(record.SignedVersions);
        Assert.Equal(("DR", ""), (signed.Who, signed.Record));
        Assert.Contains("erased", signed.ChartBlock, StringComparison.Ordinal);

        var number = record.Patient.Patient;
        Assert.StartsWith("erased-", number, StringComparison.Ordinal);
        Assert.Equal(Words, (await records.ShowPatientAsync(number, default))!.Erasure!.Words);
        var history = await records.HistoryAsync(number, 12, default);
        Assert.Equal(exam.Value, Assert.Single(history.Visits).Exam.Exam);
        Assert.Equal(Words, history.Patient.Erasure!.Words);
        Assert.Null(await records.ShowPatientAsync("erased-999", default));
        Assert.Null(await records.ShowPatientAsync(Patient, default));
    }

    [Fact]
    public async Task The_draft_of_an_exam_that_was_not_signed_says_so_on_paper_and_to_other_systems()
    {
        await using var house = new ErasingHouse();
        var exam = await house.Exams.OpenAsync(Patient);
        await house.Exams.MakeReadyAsync(exam);
        await house.ErasedAsync(Patient);

        using var records = house.Records();
        var draft = (await records.ShowOutgoingAsync(exam.Value, null, default))!;
        var report = ReportComposer.Compose(
            draft,
            new ReportSetting
            {
                ClinicName = "Quayside Occupational Health",
                Zone = TimeZoneInfo.Utc,
                WantsNames = true,
            }
        );
        Assert.Contains(
            "by AD (ordered by DPO: request 17)",
            Squeezed(TextReport.Write(report)),
            StringComparison.Ordinal
        );
        Assert.Contains(Words, HtmlReport.Write(report, ReportPaper.A4), StringComparison.Ordinal);
        var bundle = FhirBundles.Document(draft, new FhirSettings { House = "https://example.org/quayside" });
        Assert.Contains(
            bundle.Entry.Select(entry => entry.Resource).OfType<Hl7.Fhir.Model.Composition>(),
            cover => cover.Subject!.Display == Words
        );
    }

    [Fact]
    public async Task Nobody_signs_for_a_patient_who_was_erased()
    {
        await using var house = new ErasingHouse();
        var exam = await house.Exams.OpenAsync(Patient);
        await house.Exams.MakeReadyAsync(exam);
        await house.ErasedAsync(Patient);
        using var records = house.Records();
        Assert.Contains(
            "erased",
            (await records.ShowRecordAsync(exam.Value, default))!.CannotSign,
            StringComparison.Ordinal
        );
        await Assert.ThrowsAsync<InvalidOperationException>(() => house.Exams.AmendAsync(exam));
        Assert.Empty(house.Exams.Exam(new ExamId(exam.Value)).SignedVersions);
    }

    private static string Squeezed(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
