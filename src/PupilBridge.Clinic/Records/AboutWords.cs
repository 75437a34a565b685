using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using ChartWords = PupilBridge.Exams.Notation.Words;

namespace PupilBridge.Clinic.Records;

/// <summary>What a person entered about an exam, to stand within a sentence.</summary>
internal static class AboutWords
{
    /// <summary>The words.</summary>
    public static string Of(ExamEntry entry) =>
        entry switch
        {
            JudgementEntered judged => JudgementSyntax.Write(judged.Judgement),
            RoomLightEntered light => ClinicText.Records.Get("About.Light", ClinicWords.Lights[light.Light]),
            FixationEntered said => ClinicText.Records.Get("About.Fixation", ClinicWords.Fixations[said.Fixation]),
            EyeStatusEntered status => $"{HouseWords.Of(status.Eye)}: {ChartWords.Of(status.Conditions)}",
            FilterStepEntered step => ClinicText.Records.Get(
                "About.Filter",
                NeutralDensity.OfSteps(step.FilterSteps),
                HouseWords.Of(step.BeforeEye),
                ClinicText.Records.Of("Bracket", step.Answer)
            ),
            BellGradeEntered given => ClinicText.Records.Get("About.Bell", given.Grade, HouseWords.Of(given.Eye)),
            NoteEntered { Text: { } text } => ClinicText.Records.Get("About.Note", text),
            NotExaminedAccepted accepted => ClinicText.Records.Get(
                "About.NotExamined",
                string.Join(", ", accepted.Steps.Select(HouseWords.Within))
            ),
            EntryWithdrawn withdrawn => ClinicText.Records.Get("About.Withdrawn", withdrawn.Withdrawn),
            ExamAttached attached => ClinicText.Records.Get("About.Attached", attached.Patient),
            ExamMoved moved => ClinicText.Records.Get("About.Moved", moved.Patient),
            ExamSigned signed => ClinicText.Records.Get("About.Signed", signed.Version),
            AmendmentBegun => ClinicText.Records["About.Amending"],
            ExamMadeReady => ClinicText.Records["About.Ready"],
            ExamSetAside => ClinicText.Records["About.Aside"],
            ExamSplit split => ClinicText.Records.Get("About.Split", split.From),
            RecordSent sent => SendingWords.Of(sent),
            SendingDecided decided => SendingWords.Of(decided),
            _ => EntryFields.KindOf(entry).Replace('-', ' '),
        };
}
