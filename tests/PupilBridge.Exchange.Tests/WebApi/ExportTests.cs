using System.Net;
using System.Text;
using System.Text.Json;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;
using PupilBridge.Exchange.Tests.Fhir.Support;
using PupilBridge.Exchange.Tests.Report;

namespace PupilBridge.Exchange.Tests.WebApi;

/// <summary>The forms in which an exam leaves the house by the web API.</summary>
public sealed class ExportTests : IAsyncLifetime
{
    private const string Here = "/api/v1/exams/1/exports";
    private static readonly OutgoingRecord Exam = Records.Signed(Records.Constructed(1));
    private readonly ExportHouse house = new();

    public static TheoryData<string, string, string> Forms =>
        new()
        {
            { "fhir", "application/fhir+json; charset=utf-8", "json" },
            { "fhir-transaction", "application/fhir+json; charset=utf-8", "json" },
            { "hl7", "x-application/hl7-v2+er7; charset=utf-8", "hl7" },
            { "report-pdf", "application/pdf", "pdf" },
            { "report-html", "text/html; charset=utf-8", "html" },
            { "report-text", "text/plain; charset=utf-8", "txt" },
        };

    public Task InitializeAsync()
    {
        house.Has(1, Exam);
        return Task.CompletedTask;
    }

    public async Task DisposeAsync() => await house.DisposeAsync();

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task An_export_is_what_the_command_line_writes(string name, string mediaType, string ending)
    {
        using var answer = await house.Client.GetAsync($"{Here}/{name}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(Written(name, ReportPaper.A4), await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal(mediaType, answer.Content.Headers.ContentType!.ToString());
        Assert.Equal("1", answer.Headers.GetValues("PupilBridge-Record-Version").Single());
        var disposition = answer.Content.Headers.ContentDisposition!;
        Assert.Equal(
            ("attachment", $"exam-{Exam.Record.Exam}-v1.{ending}"),
            (disposition.DispositionType, disposition.FileName!.Trim('"'))
        );
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task What_has_not_changed_is_not_sent_again(string name, string mediaType, string ending)
    {
        _ = (mediaType, ending);
        using var first = await house.Client.GetAsync($"{Here}/{name}");
        house.Client.DefaultRequestHeaders.IfNoneMatch.Add(first.Headers.ETag!);
        using var same = await house.Client.GetAsync($"{Here}/{name}");
        Assert.Equal(
            (HttpStatusCode.NotModified, 0),
            (same.StatusCode, (await same.Content.ReadAsByteArrayAsync()).Length)
        );
        house.Has(1, Records.Amended(Exam.Record));
        using var amended = await house.Client.GetAsync($"{Here}/{name}");
        Assert.Equal(HttpStatusCode.OK, amended.StatusCode);
        Assert.NotEqual(first.Headers.ETag, amended.Headers.ETag);
        Assert.Equal("2", amended.Headers.GetValues("PupilBridge-Record-Version").Single());
    }

    [Theory]
    [InlineData("report-pdf")]
    [InlineData("report-html")]
    public async Task A_report_is_made_for_the_sheet_that_is_asked_for(string name)
    {
        var small = await house.Client.GetByteArrayAsync(new Uri($"{Here}/{name}?paper=a5", UriKind.Relative));
        Assert.Equal(Written(name, ReportPaper.A5), small);
        Assert.NotEqual(Written(name, ReportPaper.A4), small);
    }

    [Fact]
    public async Task An_earlier_version_can_be_asked_for()
    {
        house.Has(1, Records.Amended(Exam.Record));
        house.Has(1, Exam, 1);
        using var answer = await house.Client.GetAsync($"{Here}/fhir?version=1");
        Assert.Equal("1", answer.Headers.GetValues("PupilBridge-Record-Version").Single());
        Assert.Equal(Written("fhir", ReportPaper.A4), await answer.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task The_list_leads_to_each_of_them()
    {
        using var list = JsonDocument.Parse(await house.Client.GetStringAsync(Here));
        var forms = list.RootElement.EnumerateArray().ToList();
        Assert.Equal(Forms.Select(row => (string)row[0]), forms.Select(form => form.GetProperty("name").GetString()));
        foreach (var form in forms)
        {
            using var answer = await house.Client.GetAsync(form.GetProperty("href").GetString());
            Assert.Equal(form.GetProperty("mediaType").GetString(), answer.Content.Headers.ContentType!.MediaType);
            Assert.NotEmpty(form.GetProperty("what").GetString()!);
        }
    }

    [Theory]
    [InlineData("/api/v1/exams/2/exports", 404, "no exam 2")]
    [InlineData("/api/v1/exams/2/exports/fhir", 404, "no exam 2")]
    [InlineData("/api/v1/exams/1/exports/report-pdf?version=7", 404, "version 7")]
    [InlineData("/api/v1/exams/1/exports/nothing", 404, "report-text")]
    [InlineData("/api/v1/exams/1/exports/report-pdf?paper=a3", 422, "a4, a5")]
    [InlineData("/api/v1/exams/3/exports/fhir-transaction", 409, "not signed yet")]
    [InlineData("/api/v1/exams/4/exports/fhir", 409, "set aside")]
    [InlineData("/api/v1/exams/4/exports/hl7", 409, "set aside")]
    public async Task Every_refusal_is_a_problem_that_says_what_to_do(string path, int status, string words)
    {
        house.Has(3, Records.Draft(Exam.Record));
        house.Has(4, Exam with { IsSetAside = true });
        using var answer = await house.Client.GetAsync(path);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        Assert.Equal(status, problem.RootElement.GetProperty("status").GetInt32());
        Assert.NotEmpty(problem.RootElement.GetProperty("title").GetString()!);
        Assert.Contains(words, problem.RootElement.GetProperty("detail").GetString()!, StringComparison.Ordinal);
        Assert.Null(answer.Headers.ETag);
    }

    [Fact]
    public async Task An_exam_that_was_set_aside_can_still_be_printed_and_says_so()
    {
        house.Has(1, Exam with { IsSetAside = true });
        Assert.Contains(
            "SET ASIDE",
            await house.Client.GetStringAsync($"{Here}/report-text"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Settings_about_FHIR_are_asked_for_with_the_first_export_that_needs_them_and_once()
    {
        await house.Client.GetStringAsync(Here);
        await house.Client.GetStringAsync($"{Here}/report-html");
        Assert.Equal(0, house.SettingsAsked);
        await house.Client.GetStringAsync($"{Here}/fhir");
        await house.Client.GetStringAsync($"{Here}/hl7");
        Assert.Equal(1, house.SettingsAsked);
    }

    [Fact]
    public async Task The_OpenAPI_document_describes_each_with_its_media_type_and_its_refusals()
    {
        using var document = JsonDocument.Parse(await house.Client.GetStringAsync("/api/v1/openapi.json"));
        var paths = document.RootElement.GetProperty("paths");
        foreach (var row in Forms)
        {
            var (name, mediaType) = ((string)row[0], ((string)row[1]).Split(';')[0]);
            var get = paths.GetProperty($"/api/v1/exams/{{exam}}/exports/{name}").GetProperty("get");
            Assert.NotEmpty(get.GetProperty("summary").GetString()!);
            Assert.Equal("Scope: records.", get.GetProperty("description").GetString());
            var answers = get.GetProperty("responses");
            var body = answers.GetProperty("200").GetProperty("content").GetProperty(mediaType).GetProperty("schema");
            Assert.Equal("string", body.GetProperty("type").GetString());
            Assert.All(
                ["304", "401", "403", "404", "409"],
                code => Assert.True(answers.TryGetProperty(code, out _), code)
            );
            var query = get.GetProperty("parameters")
                .EnumerateArray()
                .Where(p => p.GetProperty("in").GetString() == "query")
                .Select(p => p.GetProperty("name").GetString());
            Assert.Equal(name is "report-pdf" or "report-html" ? ["version", "paper"] : ["version"], query);
        }

        Assert.False(paths.TryGetProperty("/api/v1/exams/{exam}/exports/{name}", out _));
    }

    private static byte[] Written(string name, ReportPaper paper)
    {
        var report = ReportComposer.Compose(Exam, Samples.Setting);
        return name switch
        {
            "fhir" => Encoding.UTF8.GetBytes(FhirTexts.Document(Exam, ExportHouse.Settings)),
            "fhir-transaction" => Encoding.UTF8.GetBytes(FhirTexts.Transaction(Exam, ExportHouse.Settings)),
            "hl7" => Encoding.UTF8.GetBytes(OruMessages.Of(Exam, ExportHouse.Settings)),
            "report-pdf" => PdfReport.Write(report, paper),
            "report-html" => Encoding.UTF8.GetBytes(HtmlReport.Write(report, paper)),
            "report-text" => Encoding.UTF8.GetBytes(TextReport.Write(report)),
            _ => throw new ArgumentException(name),
        };
    }
}
