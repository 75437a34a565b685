using PupilBridge.Clinic.Views;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Tests.Verbs.Entering;

/// <summary>Which of several open exams an entry is about that names none.</summary>
public sealed class ExamChoiceTests
{
    [Fact]
    public void The_exam_at_work_is_meant_where_an_earlier_one_of_its_instrument_was_left_open() =>
        Assert.Equal(20, ExamChoice.AtWork([Exam(20, "QA-1"), Exam(8, "QA-1")], [Instrument("QA-1", 20)]));

    [Fact]
    public void A_person_says_which_one_where_two_instruments_have_open_exams() =>
        Assert.Null(
            ExamChoice.AtWork([Exam(20, "QA-1"), Exam(8, "QB-1")], [Instrument("QA-1", 20), Instrument("QB-1", null)])
        );

    [Fact]
    public void A_person_says_which_one_where_none_takes_events() =>
        Assert.Null(ExamChoice.AtWork([Exam(20, "QA-1"), Exam(8, "QA-1")], [Instrument("QA-1", null)]));

    [Fact]
    public void An_exam_at_work_that_is_not_among_the_open_ones_is_not_chosen() =>
        Assert.Null(ExamChoice.AtWork([Exam(20, "QA-1"), Exam(8, "QA-1")], [Instrument("QA-1", 30)]));

    private static ExamSummary Exam(long exam, string instrument) =>
        new()
        {
            Exam = exam,
            Patient = null,
            OpenedAt = DateTimeOffset.UnixEpoch,
            Status = "open",
            Instrument = instrument,
            Examiner = null,
            ChartLine = "",
        };

    private static InstrumentView Instrument(string serial, long? openExam) =>
        new()
        {
            Instrument = serial,
            Model = "Quay-A",
            Firmware = "1.0",
            Port = null,
            Line = "connected",
            HeardAt = null,
            BatteryPercent = null,
            OpenExam = openExam,
        };
}
