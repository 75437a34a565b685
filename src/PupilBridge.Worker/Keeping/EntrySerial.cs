using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Worker.Keeping;

/// <summary>Which instrument an entry is about.</summary>
internal static class EntrySerial
{
    /// <summary>The instrument that an entry is about.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>Its serial number; null if it is about none.</returns>
    public static SerialNumber? Of(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => reported.Serial,
            InstrumentMet met => met.Serial,
            EventsLost lost => lost.Serial,
            EventsConflict conflict => conflict.Serial,
            LineChanged line => line.Serial,
            CommandWished wished => wished.Serial,
            CommandEnded ended => ended.Serial,
            SilenceReached silence => silence.Serial,
            _ => null,
        };
}
