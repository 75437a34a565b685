using System.Net;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

/// <summary>Pages about a patient who was erased say so, by whom and when, and ask for nothing any more.</summary>
public sealed class ErasedPageTests : IDisposable
{
    private static readonly ErasureView Erasure = new(
        SampleExams.Morning,
        "AD",
        "DPO",
        "request 17",
        4711,
        "What identified the patient was erased on 2026-03-02 by AD (ordered by DPO: request 17)."
    );

    private readonly PageBrowser browser = new();

    public ErasedPageTests()
    {
        var patient = new PatientView("erased-5", null, null) { Erasure = Erasure };
        browser.House.Add(patient);
        var record = SampleExams.Record(SampleExams.Rich(2700) with { Erasure = Erasure }, patient);
        browser.House.Records[2700] = SampleExams.Signed(record);
    }

    public void Dispose() => browser.Dispose();

    [Fact]
    public async Task The_record_says_so_under_the_number_and_in_place_of_the_report()
    {
        var page = await browser.GoAsync("/exams/2700");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.Equal(Erasure.Words, page.QuerySelector("h1.patient + p.erased")!.TextContent);
        Assert.Equal(Erasure.Words, page.QuerySelector("section.report .note")!.TextContent);
        Assert.Empty(page.QuerySelectorAll("section.report a"));
    }

    [Fact]
    public async Task The_patients_page_says_so_with_the_visits_and_offers_no_correction()
    {
        var page = await browser.GoAsync("/patients/erased-5");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.Equal(Erasure.Words, page.QuerySelector("h1.patient + p.erased")!.TextContent);
        Assert.NotNull(page.QuerySelector("a[href='/exams/2700']"));
        Assert.Null(page.QuerySelector("#correct"));
        Assert.Null(page.QuerySelector("#merge"));
    }
}
