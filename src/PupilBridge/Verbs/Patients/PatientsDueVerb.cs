using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Patients;

/// <summary><c>patients due</c>: whose last visit lies longer ago than the clinic keeps what identifies a patient. It erases nothing.</summary>
internal sealed class PatientsDueVerb : Verb
{
    private const int PageLimit = 500;

    private readonly Option<int?> years = new("--years")
    {
        Description =
            $"How many years since the last visit, 1 to {RetentionOptions.MostYears}; without it, Retention:Years of the settings.",
        HelpName = "N",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public PatientsDueVerb()
        : base(
            "due",
            "Lists patients whose last visit lies longer ago than so many years. It erases nothing: that is a person's to decide."
        )
    {
        years.Validators.Add(result =>
        {
            if (
                result.Tokens is [var token]
                && int.TryParse(token.Value, out var n)
                && n is < 1 or > RetentionOptions.MostYears
            )
            {
                result.AddError($"--years is '{n}'; it can be 1 to {RetentionOptions.MostYears}.");
            }
        });
        Add(years);
        Add(json);
        Example("pupilbridge patients due", "by the settings; nobody is erased by it");
        Example("pupilbridge patients due --years 10", "whose last visit lies more than ten years ago");
        EndsWith([.. DeskAccess.Exits, ExitCode.Configuration]);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var kept = call.Get(years) ?? Configured(call);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var due = await DueAsync(call, access, kept, cancel).ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(due);
                return ExitCode.Done;
            }

            var table = new TextTable("patient", "last visit", "exam");
            foreach (var (patient, lastVisit, exam) in due)
            {
                table.Add(patient, call.LocalTime(lastVisit), $"{exam}");
            }

            table.Print(call, "No patient's last visit lies that long ago.");
        }

        return ExitCode.Done;
    }

    private static async Task<IReadOnlyList<DuePatient>> DueAsync(
        Call call,
        DeskAccess access,
        int kept,
        CancellationToken cancel
    )
    {
        var before = call.Time.GetUtcNow().AddYears(-kept);
        List<DuePatient> due = [];
        string? after = null;
        do
        {
            var from = after;
            var page = await access
                .AskAsync(desk => desk.ListDueAsync(before, from, PageLimit, cancel))
                .ConfigureAwait(false);
            due.AddRange(page.Patients);
            after = page.Next;
        } while (after is not null);

        return due;
    }

    private static int Configured(Call call)
    {
        var settings = Settings.Read(DataFolderChoice.For(call), new Dictionary<string, string?>()).OrFail();
        return RetentionOptions.YearsOf(settings.Root)
            ?? throw new CommandFailure(
                ExitCode.Refused,
                "Nothing says how long the clinic keeps what identifies patients.",
                "Give --years N, or set Retention:Years in pupilbridge.json of the data folder."
            );
    }
}
