using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Records;

/// <summary>One entry of the journal, raw and in words.</summary>
internal static class RawReadings
{
    /// <summary>The entry as it stands there.</summary>
    public static RawReadingView Of(SequencedEntry entry) =>
        new(
            entry.Sequence.Value,
            EntryFields.KindOf(entry.Entry),
            Shown.Time(TimeOf(entry.Entry)),
            EntryWords.Of(entry.Entry),
            (entry.Entry as InstrumentReported)?.RawLine ?? (entry.Entry as EventsConflict)?.RawLine,
            EntryFields.Of(entry.Entry)
        );

    private static UtcTime TimeOf(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => reported.HappenedAt,
            SystemEntry system => system.At,
            PersonEntry person => person.At,
            _ => default,
        };
}
