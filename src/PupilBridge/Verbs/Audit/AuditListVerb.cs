using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Audit;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Audit;

/// <summary><c>audit list</c>: who saw which record, and who signed in or was refused.</summary>
internal sealed class AuditListVerb : Verb
{
    private readonly Option<string?> patient = new("--patient")
    {
        Description = "Only notes about this patient's number.",
    };
    private readonly Option<string?> person = new("--person") { Description = "Only notes of or about this person." };

    private readonly Option<DateOnly?> day = new("--day")
    {
        Description = "Only notes of this day, by the clinic's calendar.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly PageOptions paging = new("notes");
    private readonly Option<bool> json = CommonOptions.Json();

    public AuditListVerb()
        : base("list", "Lists who saw which record, when, by which way and from where, the latest first.")
    {
        foreach (var option in (ReadOnlySpan<Option>)[patient, person, day, paging.Limit, paging.After, json])
        {
            Add(option);
        }

        Example("pupilbridge audit list --patient Q-1003", "who saw that patient's records");
        Example(
            "pupilbridge audit list --person MK --day 2026-03-02 --json",
            "what one person did on a day, for a program"
        );
        EndsWith(DeskAccess.Exits);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var zone = call.Time.LocalTimeZone;
        var on = call.Get(day);
        var search = new AuditSearch
        {
            Patient = call.Get(patient),
            Person = call.Get(person),
            From = on is { } from ? ClinicDay.Begin(from, zone) : null,
            Before = on is { } until ? ClinicDay.Begin(until.AddDays(1), zone) : null,
            After = call.Get(paging.After),
            Limit = call.Get(paging.Limit),
        };
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var page = await access.AskAuditAsync(search, cancel).ConfigureAwait(false);
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

    private static void Print(Call call, AuditPage page)
    {
        var table = new TextTable("when", "who", "what", "patients", "exam", "way", "path", "from");
        foreach (var (_, note) in page.Lines)
        {
            table.Add(
                call.LocalTime(note.At),
                note.Who,
                note.Subject is { } subject ? $"{note.What} {subject}" : note.What,
                note.Patients.Count == 0 ? note.Asked ?? "-" : string.Join(' ', note.Patients),
                note.Exam?.ToString(CultureInfo.InvariantCulture) ?? "-",
                note.Way,
                note.Path ?? "-",
                note.From ?? "-"
            );
            if (note.Missed > 0)
            {
                call.Remark($"{note.Missed} notes before that of {call.LocalTime(note.At)} could not be recorded.");
            }
        }

        table.Print(call, "Nothing is listed.");
        PageOptions.TellNext(call, page.Next);
    }
}
