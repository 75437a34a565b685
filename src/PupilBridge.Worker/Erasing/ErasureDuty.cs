using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Erasing;

/// <summary>
/// Carries out what erasures the journal orders, as often as it takes: when one is recorded, and at each start whatever was not done
/// before, be it that the service was killed in between or that the keys came out of an older backup.
/// </summary>
/// <param name="keys">The keys; null where nothing was ever sealed.</param>
/// <param name="disk">The disk of the data folder.</param>
/// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
/// <param name="from">Reads the journal's records from a place to the last that is durable.</param>
internal sealed class ErasureDuty(
    SubjectKeyStore? keys,
    IJournalDisk disk,
    string dataFolder,
    Func<long, IEnumerable<JournalRecord>> from
)
{
    private readonly Lock listing = new();

    /// <summary>Destroys the keys that an entry orders to be destroyed.</summary>
    /// <exception cref="IOException">They cannot be overwritten; it is to be tried again.</exception>
    public void CarryOut(JournalSequence sequence, PatientErased erased)
    {
        if (keys is null)
            return;
        keys.Destroy([.. erased.Patients, .. erased.Texts], sequence);
        List(new ListedErasure(sequence.Value, erased));
    }

    /// <summary>Destroys what earlier erasures order and was not destroyed yet.</summary>
    /// <param name="examLog">Where the exam log stands; null where it is made anew in any case.</param>
    /// <returns>Whether an erasure lies beyond that place, so that the exam log must be made anew and not carried on.</returns>
    /// <exception cref="IOException">A key cannot be overwritten, or the journal cannot be read.</exception>
    public bool Settle(ExamLogStart? examLog)
    {
        if (keys is null)
            return false;
        var done = keys.LastErasure;
        var listed = Math.Min(done, LastListed());
        var isDoneSoFar = examLog is not null && examLog.Book.LastErasure.Value <= listed && listed == done;
        var isBeyond = false;
        foreach (var record in from(isDoneSoFar ? examLog!.Sequence + 1 : listed + 1))
        {
            if (Read(record) is not { } erased)
                continue;
            if (record.Sequence > done)
                CarryOut(new JournalSequence(record.Sequence), erased);
            else if (record.Sequence > listed)
                List(new ListedErasure(record.Sequence, erased));
            isBeyond |= record.Sequence > (examLog?.Sequence ?? 0);
        }

        return isBeyond;
    }

    private long LastListed()
    {
        try
        {
            lock (listing)
                return ErasureList.Read(disk, dataFolder).Select(one => one.Sequence).DefaultIfEmpty().Max();
        }
        catch (IOException)
        {
            return 0;
        }
    }

    /// <summary>The keys are gone by now. On a full disk the list has to wait for the next start; nothing else waits for it.</summary>
    private void List(ListedErasure erasure)
    {
        try
        {
            lock (listing)
                ErasureList.Add(disk, dataFolder, erasure);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Whoever settles next finds it missing and puts it in.
        }
    }

    private static PatientErased? Read(JournalRecord record) =>
        record.Class == RecordClass.Entry
        && EntryCodec.KindOf(record.Payload.Span) == EntryKind.PatientErased
        && EntryCodec.TryDecode(record.Payload.Span, out var entry, out _)
            ? (PatientErased)entry!
            : null;
}
