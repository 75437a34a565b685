using System.Globalization;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;

namespace PupilBridge.Clinic.DayLists;

/// <summary>
/// Takes a day's list from a file. The file is understood and compared with what is known first; with one fault nothing of it is
/// entered. What is entered bears ids that follow from the content, so that the same file twice does nothing.
/// </summary>
/// <param name="house">The house.</param>
/// <param name="entries">The one way in.</param>
/// <param name="headings">By which words columns are recognised.</param>
/// <param name="time">The clock.</param>
internal sealed class DayListImporter(
    IClinicHouse house,
    EntryDesk entries,
    DayListHeadings headings,
    TimeProvider time
) : IDisposable
{
    private readonly SemaphoreSlim one = new(1);

    /// <summary>Takes one file; see <see cref="IRecordDesk.ImportDayListAsync"/>.</summary>
    public async Task<DayListImport> ImportAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellation
    )
    {
        var bytes = await DayListBytes.ReadAsync(csv, cancellation).ConfigureAwait(false);
        await one.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await TakeAsync(bytes, NameOf(fileName), day, by, cancellation).ConfigureAwait(false);
        }
        catch (ExamLogBrokenException broken)
        {
            return NotNow(day, broken.Message);
        }
        finally
        {
            one.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => one.Dispose();

    private async Task<DayListImport> TakeAsync(
        byte[] bytes,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellation
    )
    {
        if (house.ExamsWaitFor is { } wait)
        {
            return NotNow(day, wait);
        }

        var file = DayListReader.Read(bytes, headings, day);
        var patients = KnownIdentities.Of(house, file.Rows);
        var faults = file.Faults.Concat(KnownIdentities.Faults(patients)).ToList();
        if (faults.Count > 0)
        {
            return Refused(fileName, day, faults);
        }

        var entering = new DayListEntering(house, entries, new DayListIds(bytes), by, time.GetUtcNow());
        var outcome = await entering.EnterAsync(fileName, file.Rows, patients, cancellation).ConfigureAwait(false);
        return outcome.Problem is { } problem ? NotNow(day, problem) : Taken(file, patients, outcome.IsNews);
    }

    private static DayListImport Taken(DayListFile file, IReadOnlyList<ListedPatient> patients, bool isNews)
    {
        var days = file.Rows.Select(row => row.Day).Distinct().Order().ToList();
        var fresh = patients.Count(patient => patient.IsNew);
        var on = string.Join(", ", days.Select(Date));
        var words = isNews
            ? $"{Counted(patients.Count, "patient")} for {on}, {(fresh == 0 ? "none of them new" : $"{fresh} of them new")}."
            : $"The list for {on} was taken before, and nothing in it is new; nothing was recorded.";
        var unused = file.Unused.Where(heading => heading.Length > 0).ToList();
        var passedOver = unused.Count == 0 ? "" : $" Columns not used: {string.Join(", ", unused)}.";
        return new DayListImport(true, days[0], patients.Count, fresh, words + passedOver, []);
    }

    private static DayListImport Refused(string fileName, DateOnly day, List<DayListFault> faults)
    {
        var told = faults
            .OrderBy(fault => fault.Line ?? 0)
            .Take(DayListLimits.MaxFaults)
            .Select(fault => $"{fault}")
            .ToList();
        if (faults.Count > told.Count)
        {
            told.Add($"And {faults.Count - told.Count} more.");
        }

        return new DayListImport(
            false,
            day,
            0,
            0,
            $"Nothing of '{fileName}' was taken: {Counted(faults.Count, "fault")}. Put them right in the file and give it again.",
            told
        );
    }

    private static DayListImport NotNow(DateOnly day, string why) =>
        new(false, day, 0, 0, $"{why} Give the file again in a moment; nothing of it is recorded twice.", []);

    private static string Date(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Counted(int count, string what) => count == 1 ? $"1 {what}" : $"{count} {what}s";

    /// <summary>A file's name as the journal keeps it: without folders, and short.</summary>
    private static string NameOf(string fileName)
    {
        var name = string.Concat((fileName ?? "").Split('/', '\\')[^1].Where(c => !char.IsControl(c))).Trim();
        return name.Length switch
        {
            0 => "a file without a name",
            > 200 => name[..200],
            _ => name,
        };
    }
}
