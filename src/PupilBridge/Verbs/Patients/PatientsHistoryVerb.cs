using System.CommandLine;
using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Exchange.History;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Patients;

/// <summary><c>patients history</c>: every visit of one patient, as a table, for a program, and as a plot.</summary>
internal sealed class PatientsHistoryVerb : Verb
{
    private readonly Argument<string> patient = new("patient") { Description = "The patient's number." };

    private readonly Option<string> format = new("--format")
    {
        Description = "How the visits are printed.",
        DefaultValueFactory = _ => "table",
    };

    private readonly Option<string?> plot = new("--plot")
    {
        Description = "Draw the sizes over time into this file as well: .png for paper, .svg for pages.",
        HelpName = "FILE",
    };

    private readonly Option<int> limit = CommonOptions.Limit("The most visits", usual: 100);

    private readonly OutputFile file = new();

    public PatientsHistoryVerb()
        : base(
            "history",
            "Lists a patient's visits, the latest first: sizes, differences, grades, and the criteria that changed."
        )
    {
        format.AcceptOnlyFromAmong("table", "json", "csv");
        plot.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && EndingOf(token.Value) is null)
            {
                result.AddError($"--plot is '{token.Value}'; the name must end with .png or .svg.");
            }
        });
        Add(patient);
        foreach (var option in (ReadOnlySpan<Option>)[format, plot, limit, file.Output, file.Force])
        {
            Add(option);
        }

        Example("pupilbridge patients history Q-1001", "a table of all visits");
        Example("pupilbridge patients history Q-1001 --format csv --output visits.csv", "the same for a spreadsheet");
        Example("pupilbridge patients history Q-1001 --plot sizes.png", "with a plot for paper");
        EndsWith(DeskAccess.Exits);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var number = call.Get(patient)!;
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var history = await access
                .AskOutgoingAsync(desk => desk.HistoryAsync(number, call.Get(limit), cancel))
                .ConfigureAwait(false);
            // An exam can be opened for a number that nobody entered as a patient: its visits count all the same.
            if (
                history.Visits.Count == 0
                && await access.AskOutgoingAsync(desk => desk.ShowPatientAsync(number, cancel)).ConfigureAwait(false)
                    is null
            )
            {
                throw new CommandFailure(
                    ExitCode.NotFound,
                    $"There is no patient {number}.",
                    "'pupilbridge exams list' shows the patients of exams; numbers are compared letter by letter."
                );
            }

            await PrintAsync(call, history).ConfigureAwait(false);
            if (call.Get(plot) is { } path)
            {
                var picture =
                    EndingOf(path) == ".png"
                        ? HistoryPlot.Png(history, call.Time)
                        : Encoding.UTF8.GetBytes(HistoryPlot.Svg(history, isDark: false, call.Time));
                await file.WriteAsync(call, path, picture).ConfigureAwait(false);
            }
        }

        return ExitCode.Done;
    }

    private async Task PrintAsync(Call call, PatientHistory history)
    {
        switch (call.Get(format))
        {
            case "csv":
                await file.WriteAsync(call, HistoryCsv.Write(history)).ConfigureAwait(false);
                break;
            case "json":
                await file.WriteAsync(call, HistoryJson.Write(history) + Environment.NewLine).ConfigureAwait(false);
                break;
            default:
                Table(call, history);
                break;
        }
    }

    private static void Table(Call call, PatientHistory history)
    {
        if (history.Patient.Erasure is { } erasure)
        {
            call.Remark($"pupilbridge: {erasure.Words}");
        }

        foreach (var merging in history.Mergings)
        {
            call.Remark($"pupilbridge: {merging.Merged} is merged into {merging.Kept}; the visits of both are listed.");
        }

        var table = new TextTable(
            "exam",
            "patient",
            "opened",
            "status",
            "bright OD/OS mm",
            "OD-OS",
            "dim OD/OS mm",
            "OD-OS",
            "grades"
        );
        foreach (var visit in history.Visits)
        {
            table.Add(
                visit.Exam.Exam.ToString(CultureInfo.InvariantCulture),
                visit.Exam.Patient ?? history.Patient.Patient,
                call.LocalTime(visit.Exam.OpenedAt),
                visit.Exam.Status,
                HistoryTable.Sizes(visit, "bright"),
                HistoryTable.Difference(visit, "bright"),
                HistoryTable.Sizes(visit, "dim"),
                HistoryTable.Difference(visit, "dim"),
                visit.Grades.Count == 0 ? "not examined" : string.Join("; ", visit.Grades)
            );
        }

        table.Print(call, "No visit is listed.");
        foreach (var visit in history.Visits.Where(visit => visit.Changes.Count > 0))
        {
            call.Print();
            call.Print($"Exam {visit.Exam.Exam}, otherwise than at the visit before:");
            foreach (var change in visit.Changes)
            {
                call.Print($"  {HistoryTable.Words(change)}");
            }
        }
    }

    private static string? EndingOf(string path) =>
        Path.GetExtension(path).ToLowerInvariant() is ".png" or ".svg"
            ? Path.GetExtension(path).ToLowerInvariant()
            : null;
}
