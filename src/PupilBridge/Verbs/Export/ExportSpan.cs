using System.CommandLine;
using PupilBridge.Clinic;
using PupilBridge.CommandLine;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Verbs.Export;

/// <summary>Which exams an export takes, and how it is written: the options that all exports of tables have.</summary>
internal sealed class ExportSpan
{
    private readonly Option<string> table = new("--table")
    {
        Description = "exams: one row for each exam. readings: one row for each capture, with the raw positions.",
        DefaultValueFactory = _ => "exams",
    };

    private readonly Option<string> format = new("--format")
    {
        Description = "csv: RFC 4180, UTF-8. jsonl: one JSON object on each line.",
        DefaultValueFactory = _ => "csv",
    };

    private readonly Option<DateOnly?> from = new("--from")
    {
        Description = "Only exams opened on this day or later, by this machine's calendar.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly Option<DateOnly?> to = new("--to")
    {
        Description = "Only exams opened on this day or earlier.",
        HelpName = "YYYY-MM-DD",
    };

    /// <summary>Adds the options to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        table.AcceptOnlyFromAmong("exams", "readings");
        format.AcceptOnlyFromAmong("csv", "jsonl");
        foreach (var option in (ReadOnlySpan<Option>)[table, format, from, to])
        {
            command.Add(option);
        }
    }

    /// <summary>Whether readings are asked for, and not exams.</summary>
    /// <param name="call">The invocation.</param>
    public bool IsReadings(Call call) => call.Get(table) == "readings";

    /// <summary>How it is written.</summary>
    /// <param name="call">The invocation.</param>
    public TableFormat Format(Call call) => call.Get(format) == "jsonl" ? TableFormat.JsonLines : TableFormat.Csv;

    /// <summary>Which exams.</summary>
    /// <param name="call">The invocation.</param>
    /// <exception cref="CommandFailure">The last day is before the first.</exception>
    public TableSpan Span(Call call)
    {
        var (first, last) = (call.Get(from), call.Get(to));
        return last < first
            ? throw new CommandFailure(
                ExitCode.Usage,
                $"--to {last:yyyy-MM-dd} is before --from {first:yyyy-MM-dd}.",
                "Give the earlier day as --from."
            )
            : new TableSpan(Begin(call, first), Begin(call, last?.AddDays(1)));
    }

    private static DateTimeOffset? Begin(Call call, DateOnly? day) =>
        day is { } known ? ClinicDay.Begin(known, call.Time.LocalTimeZone) : null;
}
