using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Console.Reports;

/// <summary>The report of an exam, as PDF, page and plain text. What leaves the house is made by the same library as everywhere else.</summary>
internal static class ReportEndpoints
{
    /// <summary>A PDF carries no script of ours; the browser's own viewer styles itself.</summary>
    private const string PdfPolicy =
        "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'";

    private const string TextPolicy = "default-src 'none'; frame-ancestors 'none'; sandbox";

    /// <summary>
    /// Serves them at <c>/exams/{number}/report.pdf</c>, <c>report.html</c> and <c>report.txt</c>; <c>version</c> in the query asks for
    /// an earlier signed version, <c>paper=a5</c> for the smaller sheet.
    /// </summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        foreach (var format in (string[])["pdf", "html", "txt"])
        {
            routes
                .MapGet(
                    $"/exams/{{number:long}}/report.{format}",
                    ([AsParameters] Wish wish, CallerDesks desks, ConsoleSettings settings, TimeProvider time) =>
                        WriteAsync(format, wish, desks, settings, time)
                )
                .RequireAuthorization(Roles.Records);
        }
    }

    private static async Task<IResult> WriteAsync(
        string format,
        Wish wish,
        CallerDesks desks,
        ConsoleSettings settings,
        TimeProvider time
    )
    {
        var outgoing = await desks
            .Records.ShowOutgoingAsync(wish.Number, wish.Version, wish.Context.RequestAborted)
            .ConfigureAwait(false);
        if (outgoing is null)
        {
            var record = await desks
                .Records.ShowRecordAsync(wish.Number, wish.Context.RequestAborted)
                .ConfigureAwait(false);
            return record?.Exam.Erasure is { } erasure
                ? Results.Text(erasure.Words, "text/plain", Encoding.UTF8, StatusCodes.Status404NotFound)
                : Results.NotFound();
        }

        var report = ReportComposer.Compose(
            outgoing,
            new ReportSetting
            {
                ClinicName = settings.ClinicName,
                Zone = time.LocalTimeZone,
                WantsNames = settings.WantsNames,
            }
        );
        var sheet = "a5".Equals(wish.Paper, StringComparison.OrdinalIgnoreCase) ? ReportPaper.A5 : ReportPaper.A4;
        var headers = wish.Context.Response.Headers;
        headers.CacheControl = "no-store";
        var name = string.Create(
            CultureInfo.InvariantCulture,
            $"exam-{wish.Number}-v{outgoing.Version}{(outgoing.Signature is null ? "-draft" : "")}.{format}"
        );
        headers.ContentDisposition = $"inline; filename=\"{name}\"";
        switch (format)
        {
            case "pdf":
                headers.ContentSecurityPolicy = PdfPolicy;
                return Results.Bytes(PdfReport.Write(report, sheet), "application/pdf");
            case "html":
                headers.ContentSecurityPolicy = HtmlReport.ContentSecurityPolicy(sheet);
                return Results.Text(HtmlReport.Write(report, sheet), "text/html", Encoding.UTF8);
            default:
                headers.ContentSecurityPolicy = TextPolicy;
                return Results.Text(TextReport.Write(report), "text/plain", Encoding.UTF8);
        }
    }

    /// <summary>What is asked for.</summary>
    /// <param name="Number">The exam.</param>
    /// <param name="Version">An earlier signed version; null for the latest, or for the draft while none is signed.</param>
    /// <param name="Paper">The sheet.</param>
    /// <param name="Context">The request.</param>
    private readonly record struct Wish(long Number, int? Version, string? Paper, HttpContext Context);
}
