using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Exchange.Tables;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Export;

/// <summary><c>export table</c>: exams or readings as a table, for the clinic's own use.</summary>
internal sealed class ExportTableVerb : Verb
{
    private readonly ExportSpan span = new();
    private readonly OutputFile file = new();

    public ExportTableVerb()
        : base(
            "table",
            "Writes exams or readings as CSV or JSON Lines, the latest opened first. They are about patients by number: keep the file as "
                + "you keep the exam log."
        )
    {
        span.AddTo(this);
        Add(file.Output);
        Add(file.Force);
        Example("pupilbridge export table --output exams.csv", "every exam, one row each");
        Example(
            "pupilbridge export table --table readings --format jsonl --from 2026-03-01 --to 2026-03-31",
            "every capture of March on standard output"
        );
        EndsWith([.. DeskAccess.Exits, ExitCode.Configuration]);
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var exams = span.Span(call);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var count = await file.WriteAsync(
                    call,
                    to =>
                        access.ReadPagesAsync(pages =>
                            span.IsReadings(call)
                                ? TableExport.WriteAsync(
                                    ClinicTables.Readings,
                                    pages,
                                    exams,
                                    span.Format(call),
                                    to,
                                    cancel
                                )
                                : TableExport.WriteAsync(
                                    ClinicTables.Exams,
                                    pages,
                                    exams,
                                    span.Format(call),
                                    to,
                                    cancel
                                )
                        )
                )
                .ConfigureAwait(false);
            Tell(call, count);
        }

        return ExitCode.Done;
    }

    private static void Tell(Call call, TableCount count)
    {
        call.Remark($"{count.Rows} rows from {count.Exams - count.Withheld} exams.");
        if (count.Withheld > 0)
        {
            call.Remark($"{count.Withheld} exams are left out: the text of their signed record has been erased.");
        }
    }
}
