using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams list</c>: the exams of a data folder, page by page.</summary>
internal sealed class ExamsListVerb : Verb
{
    private readonly Option<string?> patient = new("--patient")
    {
        Description = "Only exams of this patient.",
        HelpName = "NUMBER",
    };

    private readonly Option<string?> status = new("--status") { Description = "Only exams with this status." };

    private readonly Option<DateOnly?> day = new("--day")
    {
        Description = "Only exams opened on this day, by this machine's calendar.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly Option<int> limit = new("--limit")
    {
        Description = "The most exams on the page, 1 to 500.",
        HelpName = "N",
        DefaultValueFactory = _ => 50,
    };

    private readonly Option<string?> after = new("--after")
    {
        Description = "Go on where the page before ended; it said what to write here.",
        HelpName = "MARK",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public ExamsListVerb()
        : base("list", "Lists exams, the latest first.")
    {
        status.AcceptOnlyFromAmong([.. ExamStatuses.All]);
        limit.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && int.TryParse(token.Value, out var n) && n is < 1 or > 500)
            {
                result.AddError($"--limit is '{n}'; allowed is 1 to 500.");
            }
        });
        foreach (var option in (ReadOnlySpan<Option>)[patient, status, day, limit, after, json])
        {
            Add(option);
        }

        Example("pupilbridge exams list", "the latest fifty");
        Example("pupilbridge exams list --patient Q-1001 --json", "all of one patient, for a program");
        Example("pupilbridge exams list --day 2026-03-02 --status open", "those of one day that are not finished");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.InUse, ExitCode.NoService, ExitCode.Storage);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var request = Request(call);
            var page = await access.AskAsync(desk => desk.ListExamsAsync(request, cancel)).ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(page);
            }
            else
            {
                Print(call, page);
            }
        }

        return ExitCode.Done;
    }

    private ExamListRequest Request(Call call)
    {
        var zone = call.Time.LocalTimeZone;
        return new ExamListRequest
        {
            Patient = call.Get(patient),
            Status = call.Get(status),
            OpenedFrom = call.Get(day) is { } from ? StartOf(from, zone) : null,
            OpenedBefore = call.Get(day) is { } only ? StartOf(only.AddDays(1), zone) : null,
            After = call.Get(after),
            Limit = call.Get(limit),
        };
    }

    private static DateTimeOffset StartOf(DateOnly day, TimeZoneInfo zone)
    {
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        return new DateTimeOffset(midnight, zone.GetUtcOffset(midnight));
    }

    private static void Print(Call call, ExamList page)
    {
        if (page.Exams.Count == 0)
        {
            call.Remark("No exam is listed.");
            return;
        }

        var table = new TextTable("exam", "opened", "patient", "status", "instrument", "examiner", "chart");
        foreach (var exam in page.Exams)
        {
            table.Add(
                exam.Exam.ToString(CultureInfo.InvariantCulture),
                call.LocalTime(exam.OpenedAt),
                exam.Patient ?? "-",
                exam.Status,
                exam.Instrument,
                exam.Examiner ?? "-",
                Head(exam.ChartLine)
            );
        }

        table.Print(call.Terminal);
        if (page.Next is { } next)
        {
            call.Remark($"There are more; go on with --after '{next}'.");
        }
    }

    /// <summary>The letters alone; their reasons and the rest of the chart line are for 'exams chart' and for JSON.</summary>
    private static string Head(string chartLine)
    {
        var end = chartLine.AsSpan().IndexOfAny(" .");
        return end < 0 ? chartLine : chartLine[..end];
    }
}
