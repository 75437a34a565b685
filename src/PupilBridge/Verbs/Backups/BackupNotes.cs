using PupilBridge.Clinic.Audit;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Hosting;
using PupilBridge.Journal;
using PupilBridge.Keys;
using StreamJsonRpc;

namespace PupilBridge.Verbs.Backups;

/// <summary>
/// Who made or restored a backup, in the audit trail: whoever has a backup has every record in it. Where it cannot be noted the command says
/// so and goes on; a backup that is not made for want of a note helps nobody.
/// </summary>
internal static class BackupNotes
{
    private const int MaxTries = 15;
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(200);

    /// <summary>Notes that a backup is begun, before anything is read.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="service">The running service; null where none runs.</param>
    /// <param name="destination">Where it goes.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task BeginAsync(
        Call call,
        JournalFolder folder,
        IBridgeDesk? service,
        string destination,
        CancellationToken cancel
    )
    {
        try
        {
            if (service is null)
            {
                await AloneAsync(call, folder, destination, cancel).ConfigureAwait(false);
            }
            else
            {
                await service.NoteBackupAsync(Environment.UserName, destination, cancel).ConfigureAwait(false);
            }
        }
        catch (Exception fault)
            when (fault is JournalException or IOException or UnauthorizedAccessException or RemoteRpcException)
        {
            call.Remark($"pupilbridge: that a backup is made could not be noted in the audit trail: {fault.Message}");
        }
    }

    /// <summary>Notes in a data folder that was just made that it comes out of a backup.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="folder">The new data folder.</param>
    /// <param name="number">The backup's number.</param>
    /// <param name="place">Where the backups lie.</param>
    public static void Restored(Call call, JournalFolder folder, int number, string place)
    {
        try
        {
            var keyed = folder with { Keys = Data.MasterKeys.ToRead(folder.DataFolder) };
            var subject = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{number}, {place}");
            NoteAsync(call, keyed, AuditWhat.Restore, subject).GetAwaiter().GetResult();
        }
        catch (KeyException missing)
        {
            call.Remark(
                $"pupilbridge: that a backup was restored could not be noted in the audit trail: {missing.Message}"
            );
        }
    }

    private static async Task AloneAsync(Call call, JournalFolder folder, string destination, CancellationToken cancel)
    {
        for (var tries = 1; ; tries++)
        {
            try
            {
                // The folder's lock, so that nobody changes the keys meanwhile.
                using var held = RealDisk.Instance.Lock(folder);
                await NoteAsync(call, folder, AuditWhat.Backup, destination).ConfigureAwait(false);
                return;
            }
            catch (JournalLockedException) when (tries < MaxTries)
            {
                await Task.Delay(BetweenTries, call.Time, cancel).ConfigureAwait(false);
            }
        }
    }

    private static async Task NoteAsync(Call call, JournalFolder folder, string what, string subject)
    {
        using var audit = new AuditLog(OfflineParts.AuditOf(call, folder));
        var note = AuditReader.OfCommand().Note(what, call.Time.GetUtcNow());
        await audit.NoteAsync(note with { Subject = subject }).ConfigureAwait(false);
    }
}
