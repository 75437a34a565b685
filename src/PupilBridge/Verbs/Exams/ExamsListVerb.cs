using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic;
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

    private readonly PageOptions paging = new("exams");
    private readonly Option<bool> json = CommonOptions.Json();

    public ExamsListVerb()
        : base("list", "Lists exams, the latest first.")
    {
        status.AcceptOnlyFromAmong([.. ExamStatuses.All]);
        foreach (var option in (ReadOnlySpan<Option>)[patient, status, day, paging.Limit, paging.After, json])
        {
            Add(option);
        }

        Example("pupilbridge exams list", "the latest fifty");
        Example("pupilbridge exams list --patient Q-1001 --json", "all of one patient, for a program");
        Example("pupilbridge exams list --day 2026-03-02 --status open", "those of one day that are not finished");
        EndsWith(DeskAccess.Exits);
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
            OpenedFrom = call.Get(day) is { } from ? ClinicDay.Begin(from, zone) : null,
            OpenedBefore = call.Get(day) is { } only ? ClinicDay.Begin(only.AddDays(1), zone) : null,
            After = call.Get(paging.After),
            Limit = call.Get(paging.Limit),
        };
    }

    private static void Print(Call call, ExamList page)
    {
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
                // Whole: its first letters alone would hide an afferent defect that stands at its end.
                exam.ChartLine
            );
        }

        table.Print(call, "No exam is listed.");
        PageOptions.TellNext(call, page.Next);
    }
}
