using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Notation;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Report.Parts;

namespace PupilBridge.Exchange.Report;

/// <summary>From a record that leaves the house to what its report says.</summary>
public static class ReportComposer
{
    /// <summary>Composes a report.</summary>
    /// <param name="outgoing">The record, with whom it is about and who signed it.</param>
    /// <param name="setting">What of the house is needed.</param>
    /// <returns>The report; nothing of it depends on a clock.</returns>
    public static ReportDocument Compose(OutgoingRecord outgoing, ReportSetting setting)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        ArgumentNullException.ThrowIfNull(setting);
        var text = ReportWords.Text;
        var record = outgoing.Record;
        var sources = new NumberedSources();
        return new ReportDocument
        {
            Title = text.Get("Title", record.Exam),
            Running = text.Get(
                outgoing.Signature is null ? "Running.Draft" : "Running.Signed",
                record.Patient ?? text["Patient.None"],
                record.Exam,
                record.Version
            ),
            Dated = outgoing.Signature?.At ?? ReportWords.Read(record.Closed?.At ?? record.Opened.At),
            Marks = [.. MarksPart.Of(outgoing)],
            Sections =
            [
                IdentityPart.Of(outgoing, setting),
                ReadingsPart.Of(record, setting),
                TimelinePart.Of(record),
                FindingsPart.Of(record, sources),
                .. CautionsPart.Of(record),
                .. sources.Section(),
                .. RemarksPart.Of(record, setting),
                InstrumentPart.Of(record),
                SignaturePart.Of(outgoing, setting),
            ],
            Caution = ChartText.Caution,
        };
    }
}
