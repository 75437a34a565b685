using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.Certificates;

namespace PupilBridge.Console.Bench;

/// <summary>Certificates and their drafts as PDF, page, plain text and the JSON that was issued, byte for byte.</summary>
internal static class CertificateEndpoints
{
    /// <summary>The forms, by the ending of their names.</summary>
    internal static readonly string[] Forms = ["html", "pdf", "txt", "json"];

    /// <summary>A PDF carries no script of ours; the browser's own viewer styles itself.</summary>
    private const string PdfPolicy =
        "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'";

    private const string TextPolicy = "default-src 'none'; frame-ancestors 'none'; sandbox";

    /// <summary>
    /// Serves them at <c>/bench/certificates/{number}/certificate.FORM</c>, and drafts at <c>/bench/runs/{run}/certificate/draft.FORM</c>.
    /// </summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        foreach (var form in Forms)
        {
            routes
                .MapGet(
                    $"/bench/certificates/{{number:long}}/certificate.{form}",
                    (long number, HttpContext context, CallerDesks desks) => IssuedAsync(form, number, context, desks)
                )
                .RequireAuthorization(Roles.Calibrations);
            routes
                .MapGet(
                    $"/bench/runs/{{run:long}}/certificate/draft.{form}",
                    (long run, HttpContext context, CallerDesks desks) => DraftAsync(form, run, context, desks)
                )
                .RequireAuthorization(Roles.Bench);
        }
    }

    private static async Task<IResult> IssuedAsync(string form, long number, HttpContext context, CallerDesks desks) =>
        await desks.Bench.ShowCertificateAsync(number, context.RequestAborted).ConfigureAwait(false) is { } issued
            ? Write(form, issued.Text, isDraft: false, Name($"certificate-{number}"), context)
            : Results.NotFound();

    private static async Task<IResult> DraftAsync(string form, long run, HttpContext context, CallerDesks desks) =>
        await desks.Bench.DraftCertificateAsync(run, context.RequestAborted).ConfigureAwait(false) is { Text: { } text }
            ? Write(form, text, isDraft: true, Name($"draft-of-run-{run}"), context)
            : Results.NotFound();

    private static string Name(FormattableString name) => name.ToString(CultureInfo.InvariantCulture);

    private static IResult Write(string form, string text, bool isDraft, string name, HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.CacheControl = "no-store";
        headers.ContentDisposition = $"inline; filename=\"{name}.{form}\"";
        try
        {
            switch (form)
            {
                case "pdf":
                    headers.ContentSecurityPolicy = PdfPolicy;
                    using (var pdf = new MemoryStream())
                    {
                        CertificateDocuments.Pdf(text, isDraft, pdf);
                        return Results.Bytes(pdf.ToArray(), "application/pdf");
                    }

                case "html":
                    headers.ContentSecurityPolicy = CertificateDocuments.HtmlPolicy(text, isDraft);
                    return Results.Text(CertificateDocuments.Html(text, isDraft), "text/html", Encoding.UTF8);
                case "txt":
                    headers.ContentSecurityPolicy = TextPolicy;
                    return Results.Text(CertificateDocuments.Text(text, isDraft), "text/plain", Encoding.UTF8);
                default:
                    headers.ContentSecurityPolicy = TextPolicy;
                    return Results.Bytes(Encoding.UTF8.GetBytes(text), "application/json");
            }
        }
        catch (FormatException newer)
        {
            throw new EntryProblemException(newer.Message, newer);
        }
    }
}
