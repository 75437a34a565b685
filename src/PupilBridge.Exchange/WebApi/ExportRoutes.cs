using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.WebApi;

/// <summary>The other forms in which an exam leaves the house; each <see cref="IExamExport"/> that is registered has a route of its own.</summary>
internal static class ExportRoutes
{
    private static readonly string[] Papers = ["a4", "a5"];

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/exams/{exam:long}/exports", ListAsync)
            .Says("In which other forms an exam can leave the house.", Scope.Records)
            .Produces<IReadOnlyList<ExportView>>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        foreach (var form in ((IEndpointRouteBuilder)api).ServiceProvider.GetServices<IExamExport>())
            Map(api, form);
        // Whatever has no route of its own is nothing that is written here; the answer says what is.
        api.MapGet("/exams/{exam:long}/exports/{name}", NoneAsync).ExcludeFromDescription();
    }

    private static void Map(RouteGroupBuilder api, IExamExport form)
    {
        var place = $"/exams/{{exam:long}}/exports/{form.Name}";
        var route = form.HasPaper
            ? api.MapGet(
                place,
                (
                    HttpContext context,
                    IRecordDesk desk,
                    long exam,
                    int? version,
                    string? paper,
                    CancellationToken cancellation
                ) => WriteAsync(context, desk, form, (exam, version), paper, cancellation)
            )
            : api.MapGet(
                place,
                (HttpContext context, IRecordDesk desk, long exam, int? version, CancellationToken cancellation) =>
                    WriteAsync(context, desk, form, (exam, version), null, cancellation)
            );
        route
            .Says(form.What, Scope.Records)
            .Produces<string>(StatusCodes.Status200OK, form.MediaType)
            .Produces(StatusCodes.Status304NotModified)
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status409Conflict);
        if (form.HasPaper)
            route.ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        if (!form.IsText)
            route.AddOpenApiOperationTransformer((operation, _, _) => SayBinary(operation, form.MediaType));
    }

    private static Task SayBinary(OpenApiOperation operation, string mediaType)
    {
        if (operation.Responses?["200"].Content?.TryGetValue(mediaType, out var body) == true)
            body.Schema = new OpenApiSchema { Type = JsonSchemaType.String, Format = "binary" };
        return Task.CompletedTask;
    }

    private static async Task<IResult> ListAsync(
        HttpContext context,
        IRecordDesk desk,
        IEnumerable<IExamExport> exports,
        long exam,
        CancellationToken cancellation
    ) =>
        await desk.ShowOutgoingAsync(exam, null, cancellation).ConfigureAwait(false) is null
            ? await ApiProblems.NoRecordAsync(desk, exam, null, cancellation).ConfigureAwait(false)
            : Tagged.Of(
                context,
                exports
                    .Select(one => new ExportView(
                        one.Name,
                        one.What,
                        one.MediaType,
                        $"/api/v1/exams/{exam}/exports/{one.Name}"
                    ))
                    .ToList()
            );

    private static async Task<IResult> NoneAsync(
        IRecordDesk desk,
        IEnumerable<IExamExport> exports,
        long exam,
        string name,
        CancellationToken cancellation
    ) =>
        await desk.ShowOutgoingAsync(exam, null, cancellation).ConfigureAwait(false) is null
            ? ApiProblems.NoExam(exam)
            : ApiProblems.NoExport(name, exports.Select(one => one.Name));

    private static async Task<IResult> WriteAsync(
        HttpContext context,
        IRecordDesk desk,
        IExamExport form,
        (long Exam, int? Version) wanted,
        string? paper,
        CancellationToken cancellation
    )
    {
        // The desk is asked before anything else is looked at: it refuses whoever may not see records.
        if (
            await desk.ShowOutgoingAsync(wanted.Exam, wanted.Version, cancellation).ConfigureAwait(false)
            is not { } found
        )
            return await ApiProblems
                .NoRecordAsync(desk, wanted.Exam, wanted.Version, cancellation)
                .ConfigureAwait(false);
        if (paper is not null && !Papers.Contains(paper))
            return ApiProblems.BadQuery(WebApiText.Words.Get("BadQuery.Paper", paper, string.Join(", ", Papers)));
        try
        {
            var bytes = form.Write(found, paper == "a5" ? ReportPaper.A5 : ReportPaper.A4);
            ExamRoutes.SayVersion(context, found);
            // To be kept, not to be opened in place: a page of it must run nowhere near the session of whoever asked.
            context.Response.Headers.ContentDisposition = $"attachment; filename=\"{FileName(found, form)}\"";
            return Tagged.Of(context, bytes, form.IsText ? $"{form.MediaType}; charset=utf-8" : form.MediaType);
        }
        catch (RecordNotSentException refused)
        {
            return ApiProblems.NotSent(refused.Message);
        }
    }

    private static string FileName(OutgoingRecord exam, IExamExport form)
    {
        var draft = exam.Signature is null ? "-draft" : "";
        return FormattableString.Invariant($"exam-{exam.Record.Exam}-v{exam.Version}{draft}.{form.Ending}");
    }

    /// <summary>A form in which an exam can leave the house.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="What">What it is.</param>
    /// <param name="MediaType">Its media type.</param>
    /// <param name="Href">Where this exam is in it.</param>
    internal sealed record ExportView(string Name, string What, string MediaType, string Href);
}
