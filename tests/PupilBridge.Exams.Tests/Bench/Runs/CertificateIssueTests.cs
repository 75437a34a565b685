using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>Who gets a certificate, which number, and which exams it corrects.</summary>
public class CertificateIssueTests
{
    private const string Finished = "meet A; mode measure; bench calibration all 2; measure 30; +1000; finish;";
    private const string Exam = "bright; open Q-1001; +1000; pair R 3200; ready;";

    [Fact]
    public void A_finished_calibration_gets_the_next_number_and_corrects_exams_from_then_on()
    {
        var folded = Script.Run(Finished + "issue 1 offset=0.05; +1000;" + Exam);
        Assert.Equal(1, folded.Run.Bench!.Certificate);
        Assert.Equal(2, folded.Book.NextCertificate);
        Assert.Equal(1, folded.Exam.Calibration!.Number);
        Assert.Equal(folded.Run.Id, folded.Exam.Calibration.Run);
        var size = PupilSizes.Of(folded.Exam, Eye.Right, RoomLight.Bright)!;
        Assert.True(size.Diameter.IsCalibrated);
        Assert.Equal(3.25, size.Diameter.Millimetres, 12);
        // The reading itself is as it was.
        Assert.Equal(3200, size.Capture.Raw.Value);
    }

    [Theory]
    [InlineData("meet A; bench calibration all 2; measure 30; issue 1", "it is not finished")]
    [InlineData("meet A; bench calibration all 2; giveup stuck; issue 1", "it is not finished")]
    [InlineData("meet A; bench calibration all 2; +1800000; silence; issue 1", "it is not finished")]
    [InlineData("meet A; bench timing; finish; issue 1", "only a calibration gives a certificate")]
    [InlineData(Finished + "issue 2", "the next certificate's number is 1, not 2; look at it again")]
    [InlineData(Finished + "issue 0", "the next certificate's number is 1, not 0; look at it again")]
    [InlineData(Finished + "issue 1; issue 2", "certificate 1 was issued for it already")]
    [InlineData(Finished + "issue 1 from=-1", "a certificate holds from the end of the run on, not before")]
    [InlineData(Finished + "issue 1 from=5 until=5", "it would expire before it holds")]
    [InlineData(Finished + "issue 1 until=0", "it would expire before it holds")]
    [InlineData(Finished + "issue 1 offset=NaN", "a number of its corrections is none; compute the certificate anew")]
    public void Anything_else_gets_none_and_is_told_why(string script, string why)
    {
        var folded = Script.Run(script);
        Assert.Equal(why, folded.Run.Incidents[^1].Detail);
        Assert.InRange(folded.Book.Lane(folded.Run.Serial)!.Calibrations.Count, 0, 1);
        Assert.Equal(folded.Run.Bench!.Certificate is null ? 1 : 2, folded.Book.NextCertificate);
    }

    [Fact]
    public void A_certificate_longer_than_the_journal_takes_is_refused()
    {
        var journal = Script.Journal(Finished + "issue 1");
        var issued = (CalibrationIssued)journal[^1].Entry;
        var longest = issued with { Certificate = new('x', CalibrationIssued.MaxCertificateBytes) };
        Assert.Equal(
            1,
            Folded.Of([.. journal.SkipLast(1), journal[^1] with { Entry = longest }]).Run.Bench!.Certificate
        );
        var longer = issued with { Certificate = longest.Certificate + "x" };
        Assert.Null(Folded.Of([.. journal.SkipLast(1), journal[^1] with { Entry = longer }]).Run.Bench!.Certificate);
    }

    [Fact]
    public void The_entry_that_issued_it_issues_none_again()
    {
        var folded = Script.Run(Finished + "i: issue 1; twice i issue 1");
        Assert.Single(folded.Book.Lane(folded.Run.Serial)!.Calibrations);
        Assert.Equal(2, folded.Book.NextCertificate);
    }

    [Fact]
    public void Numbers_run_through_all_instruments_of_the_house()
    {
        var folded = Script.Run(
            Finished + "@Z meet A; @Z bench calibration all 2; @Z measure 20; @Z finish; @Z issue 1; issue 1; issue 2"
        );
        Assert.Equal([2L, 1L], folded.Runs.Values.Select(run => run.Bench!.Certificate!.Value));
        Assert.Equal(2, Assert.Single(folded.Book.Lane(new("Q7"))!.Calibrations).Number);
        Assert.Equal(1, Assert.Single(folded.Book.Lane(new("Z"))!.Calibrations).Number);
    }

    [Fact]
    public void Exams_that_opened_before_keep_what_they_had()
    {
        var folded = Script.Run("meet A; mode measure;" + Exam + Finished + "issue 1");
        Assert.Null(folded.Exam.Calibration);
        Assert.False(PupilSizes.Of(folded.Exam, Eye.Right, RoomLight.Bright)!.Diameter.IsCalibrated);
    }

    [Fact]
    public void An_exam_whose_late_events_come_after_the_certificate_keeps_its_own()
    {
        // The instrument was out of reach: the exam opened, and the rest of its readings come once the certificate stands.
        var folded = Script.Run(
            "meet A; mode measure; bright; open Q-1001; +1000; pair R 3200; hold; pair L 3300; +5000;"
                + "bench calibration R d2; release; +1000; pair R 2030; finish; issue 1"
        );
        Assert.Equal([3200, 3300], folded.Exam.Captures.Select(c => c.Raw.Value));
        Assert.Null(folded.Exam.Calibration);
    }

    [Fact]
    public void An_exam_that_happened_before_and_is_first_heard_of_afterwards_gets_nothing_that_came_later()
    {
        var folded = Script.Run(
            "meet A; hold; mode measure; edge R N 5000; +500; edge R T 8200; +1000; mode idle; +10000;"
                + "run: bench live R bright L bright R dim L dim; finish; adopt 0.08 12; lamps 100,101 99,98;"
                + "bench calibration all 2; finish; issue 1; +1000; release"
        );
        Assert.Equal(3200, Assert.Single(folded.Exam.Captures).Raw.Value);
        Assert.Null(folded.Exam.Calibration);
        Assert.Null(folded.Exam.LampBalance);
        Assert.Null(folded.Exam.Repeatability);
        Assert.False(folded.Exam.Profile.Captures.SettingRepeatabilityIsMeasured);
        // And all of it counts for what happens from now on.
        var next = Script
            .Run(
                "meet A; bench live R bright L bright R dim L dim; finish; adopt 0.08 12; lamps 100,101 99,98;"
                    + "bench calibration all 2; finish; issue 1; open Q-1001"
            )
            .Exam;
        Assert.NotNull(next.Calibration);
        Assert.NotNull(next.LampBalance);
        Assert.NotNull(next.Repeatability);
    }

    [Fact]
    public void It_counts_from_its_effective_date_on_to_the_millisecond()
    {
        var early = Script.Run(Finished + "issue 1 from=5000; +4999; open Q-1001").Exam;
        var late = Script.Run(Finished + "issue 1 from=5000; +5000; open Q-1001").Exam;
        Assert.Null(early.Calibration);
        Assert.Equal(1, late.Calibration!.Number);
    }

    [Fact]
    public void Another_one_takes_its_place_from_its_own_effective_date_on()
    {
        const string two =
            Finished
            + "issue 1 offset=0.05; bench calibration all 2; measure 30; finish; issue 2 offset=0.02 from=5000;";
        Assert.Equal(1, Script.Run(two + "open Q-1001").Exam.Calibration!.Number);
        Assert.Equal(2, Script.Run(two + "+5000; open Q-1001").Exam.Calibration!.Number);
        Assert.Equal([1L, 2L], Script.Run(two).Book.Lane(new("Q7"))!.Calibrations.Select(one => one.Number));
    }

    [Fact]
    public void Of_two_with_one_date_the_later_number_counts()
    {
        var folded = Script.Run(Finished + "issue 1; bench calibration all 2; finish; issue 2; open Q-1001");
        var (first, second) = (folded.Book.Lane(new("Q7"))!.Calibrations[0], folded.Exam.Calibration!);
        Assert.Equal((2L, first.Effective), (second.Number, second.Effective));
    }

    [Fact]
    public void An_expired_one_still_corrects()
    {
        var exam = Script.Run(Finished + "issue 1 until=1000; +2000; open Q-1001").Exam;
        Assert.Equal(1, exam.Calibration!.Number);
        Assert.Equal(Exams.Bench.CalibrationStanding.Expired, Exams.Bench.CalibrationStandings.Of(exam));
    }

    [Fact]
    public void It_counts_for_its_own_instrument_only() =>
        Assert.Null(Script.Run(Finished + "issue 1; @Z meet A; @Z open Q-1001").Exam.Calibration);

    [Fact]
    public void Both_parts_of_an_exam_that_is_split_keep_the_calibration_that_it_had()
    {
        var split = Script.Run(
            Finished
                + "issue 1; +1000; bright; e: open Q-1001; +1000; pair R 3200; s: pair L 3300; pair R 4000; ready exam=e;"
                + "bench calibration all 2; measure 30; finish; issue 2; split s exam=e"
        );
        Assert.Equal(2, split.Exams.Count);
        Assert.Equal([1L, 1L], split.Exams.Values.Select(exam => exam.Calibration!.Number));
    }
}
