using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>Lanes as their screens show them.</summary>
internal static class SampleBoards
{
    /// <summary>A lane: with an exam at work if the instrument has one, else free.</summary>
    public static LaneBoard Of(InstrumentView instrument) =>
        new()
        {
            Now = SampleExams.Morning,
            Instrument = instrument.Instrument,
            Model = instrument.Model,
            Line = instrument.Line,
            LineWords = "",
            BatteryPercent = instrument.BatteryPercent,
            CanSwitchOff = true,
            Trouble = null,
            Mode = "measure",
            Block = null,
            Right = Eye,
            Left = Eye,
            Room = new LaneRoom("dim", 3, false),
            Fixation = "far",
            ReceivedEvents = 12,
            RecordedEvents = 12,
            Exam = instrument.OpenExam is { } exam ? Exam(exam) : null,
            Before = null,
            Reminders = [],
        };

    private static LaneEye Eye { get; } =
        new()
        {
            PositionMicrometres = null,
            IsMoving = false,
            LiveMillimetres = null,
            IsLit = false,
            LitSince = null,
            DwellWantedMilliseconds = null,
            DarkSince = null,
            DarkSettledAfterMilliseconds = 60_000,
        };

    private static LaneExam Exam(long exam) =>
        new()
        {
            Exam = exam,
            Status = "open",
            OpenedAt = SampleExams.Morning,
            Patient = new PatientView("Q-1002", "Rowan Ebb", new DateOnly(1991, 12, 1)),
            Steps = [],
            Prompt = new LanePrompt
            {
                Key = "1|grade|direct|OD|2",
                Accepts = "grade",
                Judges = "direct OD",
                Step = "direct",
                Eye = "OD",
                Stimulus = 2,
                Words = "Grade the direct response of OD (right)",
                Detail = "",
                IsOptional = false,
            },
            Optional = [],
            Missing = [],
            MissingSteps = [],
            Sizes = [],
            Judgements = [],
            Reminders = [],
            BeforeDrops = ["The direct response of OD (right) is 1."],
            Gaps = [],
            ChartLine = "",
        };
}
