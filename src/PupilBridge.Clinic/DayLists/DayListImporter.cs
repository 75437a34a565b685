using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Worker.Projection;

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
        var on = string.Join(", ", days.Select(ExamDocuments.KeyOf));
        var words = isNews
            ? ClinicText.DayLists.Get("Import.Taken", on, patients.Count, fresh)
            : ClinicText.DayLists.Get("Import.NothingNew", on);
        var unused = file.Unused.Where(heading => heading.Length > 0).ToList();
        var passedOver =
            unused.Count == 0 ? "" : " " + ClinicText.DayLists.Get("Import.Unused", string.Join(", ", unused));
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
            told.Add(ClinicText.DayLists.Get("Fault.More", faults.Count - told.Count));
        }

        return new DayListImport(
            false,
            day,
            0,
            0,
            ClinicText.DayLists.Get("Import.Refused", fileName, faults.Count),
            told
        );
    }

    private static DayListImport NotNow(DateOnly day, string why) =>
        new(false, day, 0, 0, ClinicText.DayLists.Get("Import.NotNow", why), []);

    /// <summary>A file's name as the journal keeps it: without folders, and short.</summary>
    private static string NameOf(string fileName)
    {
        var name = string.Concat((fileName ?? "").Split('/', '\\')[^1].Where(c => !char.IsControl(c))).Trim();
        return name.Length switch
        {
            0 => ClinicText.DayLists["Import.NoName"],
            > 200 => name[..200],
            _ => name,
        };
    }
}
