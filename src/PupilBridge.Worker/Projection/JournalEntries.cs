using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Worker.Projection;

/// <summary>Turns the journal's records into entries.</summary>
/// <param name="logger">Where unreadable ones are told.</param>
/// <param name="keys">The keys of what is sealed; null where nothing ever was.</param>
internal sealed partial class JournalEntries(ILogger logger, ISubjectKeys? keys = null)
{
    private long unreadable;

    /// <summary>How many entries could not be read; the journal keeps them as they are.</summary>
    public long Unreadable => Interlocked.Read(ref unreadable);

    /// <summary>The entries among records, in order. Damaged ones are passed over and counted.</summary>
    /// <exception cref="JournalFormatException">A newer version of the program wrote one of them.</exception>
    /// <exception cref="BridgeStartException">Something is sealed, and the folder of keys is missing.</exception>
    public IEnumerable<SequencedEntry> Of(IEnumerable<JournalRecord> records) =>
        records.Select(Of).Where(entry => entry is not null).Select(entry => entry!);

    /// <summary>One entry by its place.</summary>
    /// <param name="reader">A reader that begins at that place.</param>
    /// <param name="sequence">The place.</param>
    /// <returns>Null where no entry stands, or none that can be read.</returns>
    /// <exception cref="JournalFormatException">A newer version of the program wrote it.</exception>
    public SequencedEntry? Find(JournalReader reader, JournalSequence sequence) =>
        reader.TryRead() is { } record && record.Sequence == sequence.Value ? Of(record) : null;

    /// <summary>One record as an entry.</summary>
    /// <returns>Null for the journal's own records, and for damaged ones.</returns>
    /// <exception cref="JournalFormatException">A newer version of the program wrote it.</exception>
    public SequencedEntry? Of(JournalRecord record)
    {
        if (record.Class != RecordClass.Entry)
            return null;
        if (EntryCodec.TryDecode(record.Payload.Span, keys ?? NoSubjectKeys.Instance, out var read, out var refusal))
            return Of(record.Sequence, read!);
        if (refusal!.Cause != RefusalCause.Damaged)
            throw new JournalFormatException($"Entry {record.Sequence}: {refusal.Message}");
        Interlocked.Increment(ref unreadable);
        CannotRead(logger, record.Sequence, refusal.Message);
        return null;
    }

    private SequencedEntry Of(long sequence, UnsealedEntry read)
    {
        if (read.Unreadable.Count > 0)
        {
            if (keys is null)
                throw SealedRecords.Lost(sequence);
            Interlocked.Increment(ref unreadable);
            CannotUnseal(logger, sequence, string.Join(", ", read.Unreadable));
        }

        return new SequencedEntry(new JournalSequence(sequence), read.Entry) { Texts = read.Texts };
    }

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "Entry {Sequence} of the journal is sealed under key {Keys}, which is damaged. Nobody erased it: put the folder of keys "
            + "back from a backup."
    )]
    private static partial void CannotUnseal(ILogger logger, long sequence, string keys);

    [LoggerMessage(Level = LogLevel.Error, Message = "Entry {Sequence} of the journal: {Message}")]
    private static partial void CannotRead(ILogger logger, long sequence, string message);
}
