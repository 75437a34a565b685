using System.Globalization;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.DayLists;

/// <summary>
/// Watches a folder for day's lists. A file is taken once two looks found it alike, so that none is taken half-written; then it is
/// moved to <c>taken</c>, or to <c>refused</c> with a report beside it. What cannot be taken just now stays where it is.
/// </summary>
/// <param name="desk">Takes the lists.</param>
/// <param name="options">What is watched.</param>
/// <param name="time">The clock.</param>
/// <param name="log">Where remarks go; they name files and never patients.</param>
public sealed partial class DayListWatch(
    IRecordDesk desk,
    DayListWatchOptions options,
    TimeProvider time,
    ILogger<DayListWatch> log
)
{
    private readonly DayListFolder folder = new(options.Folder);
    private HashSet<SeenFile> before = [];
    private string? told;

    /// <summary>Watches until stopped. Never throws for what lies in the folder.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        using var timer = new PeriodicTimer(options.Every, time);
        try
        {
            do
            {
                await LookAsync(stop).ConfigureAwait(false);
            } while (await timer.WaitForNextTickAsync(stop).ConfigureAwait(false));
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped.
        }
    }

    /// <summary>Looks once, and takes what two looks found alike.</summary>
    /// <param name="stop">Gives up; a file that was not moved is looked at again by the next start.</param>
    public async Task LookAsync(CancellationToken stop)
    {
        var now = Look() ?? [];
        foreach (var file in now.Where(before.Contains))
        {
            try
            {
                await TakeAsync(file, stop).ConfigureAwait(false);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or EntryProblemException)
            {
                TellOnce(ClinicText.DayLists.Get("Watch.CannotTake", file.Path, e.Message));
            }
        }

        before = [.. now];
    }

    private IReadOnlyList<SeenFile>? Look()
    {
        try
        {
            return folder.Look();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            TellOnce(ClinicText.DayLists.Get("Watch.NoFolder", options.Folder, e.Message));
            return null;
        }
    }

    private async Task TakeAsync(SeenFile file, CancellationToken stop)
    {
        var name = Path.GetFileName(file.Path);
        var import = await ImportAsync(file, name, stop).ConfigureAwait(false);
        if (!import.Done && import.Faults.Count == 0)
        {
            TellOnce(ClinicText.DayLists.Get("Watch.Waits", name, import.Words));
            return;
        }

        var moved = import.Done
            ? folder.PutTaken(file, time.GetUtcNow())
            : folder.PutRefused(file, [import.Words, "", .. import.Faults], time.GetUtcNow());
        told = null;
        Told(log, import.Done ? LogLevel.Information : LogLevel.Warning, Summary(name, import, moved));
    }

    private async Task<DayListImport> ImportAsync(SeenFile file, string name, CancellationToken stop)
    {
        using var content = File.OpenRead(file.Path);
        var by = new Caller(options.Who, ClinicRole.Examiner);
        return await desk.ImportDayListAsync(content, name, DayOf(name), by, stop).ConfigureAwait(false);
    }

    /// <summary>The day in a file's name, such as <c>2026-11-25 list.csv</c>; today if it names none.</summary>
    private DateOnly DayOf(string name)
    {
        for (var at = 0; at + 10 <= name.Length; at++)
        {
            if (
                DateOnly.TryParseExact(
                    name.AsSpan(at, 10),
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out var day
                )
            )
            {
                return day;
            }
        }

        return DateOnly.FromDateTime(time.GetLocalNow().DateTime);
    }

    private static string Summary(string name, DayListImport import, string moved) =>
        import.Done
            ? ClinicText.DayLists.Get("Watch.Taken", name, import.Patients, import.Fresh, moved)
            : ClinicText.DayLists.Get("Watch.Refused", name, import.Faults.Count, moved);

    /// <summary>The same trouble at each look is told once.</summary>
    private void TellOnce(string words)
    {
        if (told != words)
        {
            told = words;
            Told(log, LogLevel.Warning, words);
        }
    }

    [LoggerMessage(Message = "{Words}")]
    private static partial void Told(ILogger log, LogLevel level, string words);
}
