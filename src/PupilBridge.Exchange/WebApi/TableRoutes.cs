using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.WebApi;

/// <summary>The tables of docs/tables.md, as they stream out of the exam log.</summary>
internal static class TableRoutes
{
    private static readonly string[] Tables = ["exams", "readings"];
    private static readonly string[] Formats = ["csv", "jsonl"];

    public static void Map(RouteGroupBuilder api) =>
        api.MapGet("/tables/{table}", WriteAsync)
            .Says("Exams or readings as CSV or JSON Lines, streamed; see the data dictionary.", Scope.Records)
            .Produces(StatusCodes.Status200OK, contentType: "text/csv", additionalContentTypes: "application/jsonl")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> WriteAsync(
        IRecordDesk desk,
        string table,
        string? format,
        DateTimeOffset? from,
        DateTimeOffset? before,
        CancellationToken cancellation
    )
    {
        // Asked once before anything else is looked at or sent, so that a refusal is an answer of its own.
        await desk.ListOutgoingAsync(
                new OutgoingSearch
                {
                    OpenedFrom = from,
                    OpenedBefore = before,
                    Limit = 1,
                },
                cancellation
            )
            .ConfigureAwait(false);
        if (!Tables.Contains(table))
        {
            return ApiProblems.NoExport(table, Tables);
        }

        if (format is not null && !Formats.Contains(format))
        {
            return ApiProblems.BadQuery(WebApiText.Words.Get("BadQuery.Format", format, string.Join(", ", Formats)));
        }

        var span = new TableSpan(from, before);
        var isJson = format == "jsonl";
        return TypedResults.Stream(
            to => StreamAsync(desk, table, span, isJson ? TableFormat.JsonLines : TableFormat.Csv, to, cancellation),
            isJson ? "application/jsonl; charset=utf-8" : "text/csv; charset=utf-8; header=present",
            $"{table}.{(isJson ? "jsonl" : "csv")}"
        );
    }

    private static async Task StreamAsync(
        IRecordDesk desk,
        string table,
        TableSpan span,
        TableFormat format,
        Stream to,
        CancellationToken cancellation
    )
    {
        if (table == "readings")
        {
            await TableExport
                .WriteAsync(ClinicTables.Readings, desk, span, format, to, cancellation)
                .ConfigureAwait(false);
        }
        else
        {
            await TableExport
                .WriteAsync(ClinicTables.Exams, desk, span, format, to, cancellation)
                .ConfigureAwait(false);
        }
    }
}
