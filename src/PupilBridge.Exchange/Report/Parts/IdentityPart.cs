using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Whose exam it is, where, when and by whom.</summary>
internal static class IdentityPart
{
    public static ReportSection Of(OutgoingRecord outgoing, ReportSetting setting)
    {
        var text = ReportWords.Text;
        var record = outgoing.Record;
        List<ReportFact> facts =
        [
            new(text["Clinic"], setting.ClinicName.Length > 0 ? setting.ClinicName : text["Clinic.None"]),
            new(text["Patient"], Patient(outgoing, setting)),
            new(text["Exam"], text.Get("Exam.Value", record.Exam, record.Version)),
            new(text["Opened"], Border(record.Opened, setting)),
            new(
                text["Closed"],
                record.Closed is { } closed
                    ? $"{Border(closed, setting)} ({ReportWords.Of("Closing", closed.Reason)})"
                    : text["Closed.Not"]
            ),
            new(text["Examiner"], Examiner(record)),
            new(
                text["Clinician"],
                outgoing.Signature is { } signed
                    ? text.Get("Clinician.Signed", signed.Who, ReportWords.Moment(signed.At, setting.Zone))
                    : text["Clinician.None"]
            ),
        ];
        return new(text["Section.Identity"], [new ReportFacts(facts)]);
    }

    private static string Patient(OutgoingRecord outgoing, ReportSetting setting)
    {
        var text = ReportWords.Text;
        if (outgoing.Record.Patient is not { } number)
            return text["Patient.None"];
        List<string> parts = [number];
        // The identity is that of the patient as known now; where it belongs to another number than the record's, it is left out.
        if (outgoing.Patient is { } known && known.Patient == number)
        {
            if (known.Erasure is { } erasure)
                parts.Add(erasure.Words);
            if (setting.WantsNames && known.Name is { Length: > 0 } name)
                parts.Add(name);
            if (known.BirthDate is { } day)
                parts.Add(text.Get("Patient.Born", day.ToString("yyyy-MM-dd", null)));
            if (known.MergedInto is { } surviving)
                parts.Add(text.Get("Patient.MergedInto", surviving));
        }

        return string.Join(", ", parts);
    }

    private static string Border(RecordBorder border, ReportSetting setting)
    {
        var at = ReportWords.Moment(ReportWords.Read(border.At), setting.Zone);
        return border.UncertaintyMilliseconds > 0
            ? ReportWords.Text.Get("Moment.Unsure", at, border.UncertaintyMilliseconds)
            : at;
    }

    private static string Examiner(SignedRecord record)
    {
        var text = ReportWords.Text;
        string[] others =
        [
            .. record
                .Judgements.Where(j => j.Counts)
                .Select(j => j.Who)
                .Where(who => who != record.Opened.Who)
                .Distinct(),
        ];
        return (record.Opened.Who, string.Join(", ", others)) switch
        {
            (null, "") => text["Examiner.ByItself"],
            (null, var judged) => text.Get("Examiner.ByItselfThen", judged),
            ({ } opener, "") => opener,
            ({ } opener, var also) => text.Get("Examiner.Others", opener, also),
        };
    }
}
