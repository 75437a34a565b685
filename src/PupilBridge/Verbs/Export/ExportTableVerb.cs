using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Verbs.Export;

/// <summary><c>export table</c>: exams or readings as a table, for the clinic's own use.</summary>
internal sealed class ExportTableVerb : Verb
{
    private readonly ExportSpan span = new();
    private readonly Option<string?> output = new("--output", "-o")
    {
        Description = "The file to write; without it, standard output.",
        HelpName = "FILE",
    };
    private readonly Option<bool> force = new("--force") { Description = "Write over a file that is there already." };

    public ExportTableVerb()
        : base(
            "table",
            "Writes exams or readings as CSV or JSON Lines, the latest opened first. They are about patients by number: keep the file as "
                + "you keep the exam log."
        )
    {
        span.AddTo(this);
        Add(output);
        Add(force);
        Example("pupilbridge export table --output exams.csv", "every exam, one row each");
        Example(
            "pupilbridge export table --table readings --format jsonl --from 2026-03-01 --to 2026-03-31",
            "every capture of March on standard output"
        );
        EndsWith(
            ExitCode.NotFound,
            ExitCode.Refused,
            ExitCode.InUse,
            ExitCode.Configuration,
            ExitCode.NoService,
            ExitCode.Storage
        );
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var exams = span.Span(call);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            Task<TableCount> Write(Stream to) =>
                access.ReadPagesAsync(pages =>
                    span.IsReadings(call)
                        ? TableExport.WriteAsync(ClinicTables.Readings, pages, exams, span.Format(call), to, cancel)
                        : TableExport.WriteAsync(ClinicTables.Exams, pages, exams, span.Format(call), to, cancel)
                );
            TableCount count;
            if (call.Get(output) is { } path)
            {
                var file = GrowingFile.Begin(path, call.Get(force));
                await using (file.ConfigureAwait(false))
                {
                    count = await file.FillAsync(Write).ConfigureAwait(false);
                }
            }
            else
            {
                var text = new Utf8ToText(call.Terminal.Out);
                await using (text.ConfigureAwait(false))
                {
                    count = await Write(text).ConfigureAwait(false);
                }
            }

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
