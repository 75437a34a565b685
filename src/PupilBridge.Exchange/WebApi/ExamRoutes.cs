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

/// <summary>Exams: lists, one exam, its record, its chart text.</summary>
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
    }

    /// <summary>Says in the header which version of a record an answer is made of.</summary>
    /// <param name="context">The request.</param>
    /// <param name="exam">The record.</param>
    public static void SayVersion(HttpContext context, OutgoingRecord exam) =>
        context.Response.Headers[VersionHeader] = exam.Signature is null
            ? "draft"
            : exam.Version.ToString(CultureInfo.InvariantCulture);

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
            return await ApiProblems.NoRecordAsync(desk, exam, version, cancellation).ConfigureAwait(false);
        }

        SayVersion(context, found);
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
}
