using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.DayLists;

/// <summary>Enters what a faultless file says: first the patients of whom it tells something new, then the list of each day.</summary>
internal sealed class DayListEntering(
    IClinicHouse house,
    EntryDesk entries,
    DayListIds ids,
    Caller by,
    DateTimeOffset now
)
{
    private bool isNews;

    /// <summary>Enters it all; an interruption leaves what is entered, and the same file goes on there.</summary>
    public async Task<DayListOutcome> EnterAsync(
        string fileName,
        IReadOnlyList<DayListRow> rows,
        IReadOnlyList<ListedPatient> patients,
        CancellationToken cancellation
    )
    {
        foreach (var patient in patients.Where(patient => patient.IsNews))
        {
            if (await TryAsync(Patient(patient), cancellation).ConfigureAwait(false) is { } problem)
            {
                return new DayListOutcome(
                    isNews,
                    ClinicText.DayLists.Get("Import.PatientNot", patient.Number, problem)
                );
            }
        }

        foreach (var day in rows.GroupBy(row => row.Day).OrderBy(day => day.Key))
        {
            var inForce = house.FindDayList(day.Key);
            var list = List(fileName, day.Key, day, inForce?.Id);
            if (inForce is not null && DayListItems.Of(list.Lines).Equals(inForce.Items))
            {
                continue;
            }

            if (await TryAsync(list, cancellation).ConfigureAwait(false) is { } problem)
            {
                return new DayListOutcome(
                    isNews,
                    ClinicText.DayLists.Get("Import.ListNot", ExamDocuments.KeyOf(day.Key), problem)
                );
            }
        }

        return new DayListOutcome(isNews, null);
    }

    private PatientEntry Patient(ListedPatient patient) =>
        new()
        {
            EntryId = ids.OfPatient(patient.Number, patient.Together),
            Who = by.Who,
            At = now,
            ProgramVersion = house.Book.ProgramVersion,
            Patient = patient.Number,
            Name = patient.Together.Name,
            BirthDate = patient.Together.BirthDate,
        };

    private DayListEntry List(string fileName, DateOnly day, IEnumerable<DayListRow> rows, EntryId? replaced) =>
        new()
        {
            EntryId = ids.OfList(day, replaced),
            Who = by.Who,
            At = now,
            ProgramVersion = house.Book.ProgramVersion,
            Day = day,
            Lines = [.. rows.Select(row => new DayListLine(row.Patient, row.Time))],
            Source = fileName,
        };

    /// <summary>Enters one thing; gives what is in the way, or null.</summary>
    private async Task<string?> TryAsync(DeskEntry entry, CancellationToken cancellation)
    {
        var outcome = await entries.EnterAsync(entry, cancellation).ConfigureAwait(false);
        isNews |= outcome is EntryOutcome.Recorded;
        return outcome is EntryOutcome.Refused refused ? $"{refused.Reason} {refused.NextStep}" : null;
    }
}

/// <summary>What came of entering a file.</summary>
/// <param name="IsNews">Whether anything was recorded that was not recorded before.</param>
/// <param name="Problem">What is in the way of the rest; null if nothing is.</param>
internal sealed record DayListOutcome(bool IsNews, string? Problem);
