using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.Tests.History;

/// <summary>Visits of a crane driver of Quayside Occupational Health.</summary>
internal static class Visits
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);

    public static PatientHistory History(params DateTimeOffset[] visits) =>
        new(new PatientView("Q-1001", null, null), [.. visits.Select(at => Visit(at))]);

    public static VisitView Visit(DateTimeOffset at, double right = 3.5, double left = 6.1) =>
        new(
            new ExamSummary
            {
                Exam = 7,
                Patient = "Q-1001",
                OpenedAt = at,
                Status = "signed",
                Instrument = "Q7",
                Examiner = "MK",
                ChartLine = "",
            },
            [Size("OD", "bright", right), Size("OS", "dim", left)],
            ["direct OD 3"]
        );

    public static SizeView Size(string eye, string light, double millimetres) =>
        new()
        {
            Eye = eye,
            Light = light,
            Fixation = "far",
            Millimetres = millimetres,
            UncertaintyMillimetres = 0.2,
            IsCalibrated = false,
            NasalMicrometres = 0,
            TemporalMicrometres = 0,
            NasalEdgeAtHome = false,
            DarkSeconds = null,
            At = Morning,
            Sequence = 1,
            IsSuperseded = false,
        };
}
