using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tables;

/// <summary>One capture with the exam it belongs to.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="Size">The capture.</param>
public sealed record Reading(OutgoingRecord Exam, RecordSize Size)
{
    /// <summary>All captures of an exam, in order.</summary>
    /// <param name="exam">The exam.</param>
    public static IEnumerable<Reading> Of(OutgoingRecord exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Record.Sizes.Select(size => new Reading(exam, size));
    }

    /// <summary>How this eye's scale counts; null where the instrument never told.</summary>
    public RecordScale? Scale => Size.Eye == "right" ? Exam.Record.Instrument.Right : Exam.Record.Instrument.Left;
}
