using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.WebApi;

/// <summary>Exams: lists, one exam, its record, its chart text, and other forms in which it leaves the house.</summary>
internal static class ExamRoutes
{
    /// <summary>The header that says which version of a record it is: a number, or <c>draft</c>.</summary>
    public const string VersionHeader = "PupilBridge-Record-Version";

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/exams", ListAsync)
            .Says("Exams, the latest opened first, a page at a time.", Scope.Records)
            .Produces<ExamList>()
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/exams/{exam:long}", ShowAsync)
            .Says("One exam whole: captures with raw readings, judgements, findings, chart text.", Scope.Records)
            .Produces<ExamView>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/exams/{exam:long}/record", RecordAsync)
            .Says("The record: a signed version byte for byte as it was signed, else the draft.", Scope.Records)
            .Produces<SignedRecord>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/exams/{exam:long}/chart", ChartAsync)
            .Says("The chart text, in one line and as a block.", Scope.Records)
            .Produces<ChartView>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/exams/{exam:long}/exports", ListExportsAsync)
            .Says("In which other forms an exam can leave the house.", Scope.Records)
            .Produces<IReadOnlyList<ExportView>>();
        api.MapGet("/exams/{exam:long}/exports/{name}", ExportAsync)
            .Says("An exam in one of these forms.", Scope.Records)
            .Produces(StatusCodes.Status200OK, contentType: "application/octet-stream")
            .ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static async Task<IResult> ListAsync(
        HttpContext context,
        IClinicDesk desk,
        string? patient,
        string? status,
        DateTimeOffset? from,
        DateTimeOffset? before,
        string? after,
        int? limit,
        CancellationToken cancellation
    )
    {
        if (Paging.Fault(limit) is { } fault)
        {
            return fault;
        }

        try
        {
            var page = await desk.ListExamsAsync(
                    new ExamListRequest
                    {
                        Patient = patient,
                        Status = status,
                        OpenedFrom = from,
                        OpenedBefore = before,
                        After = after,
                        Limit = limit ?? Paging.Usual,
                    },
                    cancellation
                )
                .ConfigureAwait(false);
            Paging.Link(context, page.Next);
            return Tagged.Of(context, page);
        }
        // With neither of these there is nothing in the question that could be wrong.
        catch (EntryProblemException problem) when (after is not null || status is not null || patient is not null)
        {
            return ApiProblems.BadQuery(problem.Message);
        }
    }

    private static async Task<IResult> ShowAsync(
        HttpContext context,
        IClinicDesk desk,
        long exam,
        CancellationToken cancellation
    ) =>
        await desk.ShowExamAsync(exam, cancellation).ConfigureAwait(false) is { } found
            ? Tagged.Of(context, found)
            : ApiProblems.NoExam(exam);

    private static async Task<IResult> RecordAsync(
        HttpContext context,
        IRecordDesk desk,
        long exam,
        int? version,
        CancellationToken cancellation
    )
    {
        if (await desk.ShowOutgoingAsync(exam, version, cancellation).ConfigureAwait(false) is not { } found)
        {
            return ApiProblems.NoExam(exam, version);
        }

        context.Response.Headers[VersionHeader] = found.Signature is null
            ? "draft"
            : found.Record.Version.ToString(CultureInfo.InvariantCulture);
        return Tagged.Of(context, Encoding.UTF8.GetBytes(SignedRecordText.Write(found.Record)), "application/json");
    }

    private static async Task<IResult> ChartAsync(
        HttpContext context,
        IClinicDesk desk,
        long exam,
        CancellationToken cancellation
    ) =>
        await desk.ChartAsync(exam, cancellation).ConfigureAwait(false) is { } found
            ? Tagged.Of(context, found)
            : ApiProblems.NoExam(exam);

    private static async Task<IResult> ListExportsAsync(
        IRecordDesk desk,
        IEnumerable<IExamExport> exports,
        long exam,
        CancellationToken cancellation
    ) =>
        await desk.ShowOutgoingAsync(exam, null, cancellation).ConfigureAwait(false) is null
            ? ApiProblems.NoExam(exam)
            : TypedResults.Json(
                exports.Select(one => new ExportView(
                    one.Name,
                    one.What,
                    one.MediaType,
                    $"/api/v1/exams/{exam}/exports/{one.Name}"
                )),
                Tagged.Json
            );

    private static async Task<IResult> ExportAsync(
        HttpContext context,
        IRecordDesk desk,
        IEnumerable<IExamExport> exports,
        long exam,
        string name,
        int? version,
        CancellationToken cancellation
    )
    {
        if (await desk.ShowOutgoingAsync(exam, version, cancellation).ConfigureAwait(false) is not { } found)
        {
            return ApiProblems.NoExam(exam, version);
        }

        var known = exports.ToList();
        if (known.FirstOrDefault(one => one.Name == name) is not { } form)
        {
            return ApiProblems.NoExport(name, known.Select(one => one.Name));
        }

        return await WriteAsync(context, form, found, cancellation).ConfigureAwait(false);
    }

    private static async Task<IResult> WriteAsync(
        HttpContext context,
        IExamExport form,
        OutgoingRecord exam,
        CancellationToken cancellation
    )
    {
        try
        {
            return Tagged.Of(context, await form.WriteAsync(exam, cancellation).ConfigureAwait(false), form.MediaType);
        }
        catch (EntryProblemException refused)
        {
            return ApiProblems.BadQuery(refused.Message);
        }
    }

    /// <summary>A form in which an exam can leave the house.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="What">What it is.</param>
    /// <param name="MediaType">Its media type.</param>
    /// <param name="Href">Where this exam is in it.</param>
    internal sealed record ExportView(string Name, string What, string MediaType, string Href);
}
