using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>Records around exams, before and after a signature.</summary>
internal static partial class SampleExams
{
    /// <summary>A record around an exam.</summary>
    public static RecordView Record(ExamView exam, PatientView? patient) =>
        new()
        {
            Exam = exam,
            Patient = patient,
            Calibration = new CalibrationView("missing", null, null, null, "Not calibrated when it opened."),
            Legend = new LegendView("1", ["no response", "trace", "slow or small", "moderate", "brisk and large"]),
            Runs =
                exam.Stimuli.Count == 0
                    ? []
                    :
                    [
                        new BlockRunView("direct", 1, 6, 6, true, "All dwells within 5 % of 1000 ms."),
                        new BlockRunView("swing-short", 1, 3, 8, false, "Broken off."),
                        new BlockRunView("swing-short", 2, 8, 8, true, "One of 8 dwells longer than 5 % over 1000 ms."),
                        new BlockRunView("swing-long", 1, 8, 8, true, "All dwells within 5 % of 3000 ms."),
                    ],
            SwingWords =
                exam.Stimuli.Count == 0
                    ? "Not examined."
                    : "Short dwell: worse in OS (left). Long dwell: alike. They disagree.",
            BeforeDrops =
                exam.Stimuli.Count == 0
                    ? []
                    :
                    [
                        "poor direct response, OS (left): 1.5+",
                        "swinging asymmetry, OS (left)",
                        "sizes differ by 0.7 mm in bright light, OS (left) larger (limit in use 0.4 mm), not so at earlier visits",
                    ],
            SignedVersions = [],
            IsBeingAmended = false,
            DraftDigest = exam.Summary.Status == "ready-for-review" ? Digest : null,
            CannotSign =
                exam.Summary.Status == "open" ? "The exam is not ready for review yet. Make it ready first." : null,
            Course =
                exam.Stimuli.Count == 0
                    ? []
                    :
                    [
                        new CourseView("opened for Q-1002", "mk", Morning, null),
                        new CourseView(
                            "moved to Q-1001",
                            "mk",
                            Morning.AddMinutes(2),
                            "The next patient had come in first."
                        ),
                        new CourseView("made ready for review", "mk", Morning.AddMinutes(6), null),
                    ],
        };

    /// <summary>A record that was signed, and perhaps is being amended.</summary>
    public static RecordView Signed(RecordView record, bool isBeingAmended = false) =>
        record with
        {
            Exam = record.Exam with { Summary = record.Exam.Summary with { Status = "signed" } },
            IsBeingAmended = isBeingAmended,
            DraftDigest = isBeingAmended ? Digest : null,
            CannotSign = isBeingAmended ? null : "The record is signed already.",
            SignedVersions =
            [
                new SignedVersionView(
                    1,
                    "drv",
                    Morning.AddHours(1),
                    null,
                    2300,
                    Digest.Replace('3', '4'),
                    "{\"format\":1,\"exam\":2001}",
                    record.Exam.Chart.Line,
                    record.Exam.Chart.Block
                ),
            ],
        };
}
