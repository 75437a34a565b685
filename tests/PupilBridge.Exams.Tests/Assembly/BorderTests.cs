using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Tests.Assembly;

public class BorderTests
{
    private const string Begin = "meet A; bright; open Q-1001; +1000; mode measure; +500; pair R 3200;";

    [Fact]
    public void An_exam_opens_by_itself_on_the_first_event_after_idle()
    {
        var folded = Script.Run(
            "meet A; mode idle; bright; +5000; m: mode measure; +900; edge R N 5000; edge R T 8000"
        );
        Assert.Null(folded.Exam.Patient);
        Assert.Null(folded.Exam.Opening.ByPerson);
        // Its name is the entry that opened it: the dial's move that led to the first reading.
        Assert.IsType<InstrumentReported>(folded.Journal[(int)folded.Exam.Id.Value - 1].Entry);
        Assert.Equal(4, folded.Exam.Id.Value);
        Assert.Equal(RoomLight.Bright, Assert.Single(folded.Exam.Captures).Light);
    }

    [Theory]
    [InlineData("mode idle; bright; fix far; lens in")]
    [InlineData("mode measure; +500; mode hold near; +500; mode idle; +9000; dim")] // stops merely passed
    [InlineData("rest R 2000; off")]
    public void What_is_about_no_eye_opens_none(string script) => Assert.Empty(Script.Run("meet A;" + script).Exams);

    [Fact]
    public void A_dial_that_stays_opens_one_at_the_next_word_of_the_instrument() =>
        Assert.Single(Script.Run("meet A; mode measure; +2000; dim").Exams);

    [Theory]
    [InlineData("ready", ClosingReason.MadeReady, ExamStatus.ReadyForReview)]
    [InlineData("off", ClosingReason.SwitchedOff, ExamStatus.Open)]
    [InlineData("aside", ClosingReason.SetAside, ExamStatus.SetAside)]
    [InlineData("+600000; silence", ClosingReason.Silence, ExamStatus.Open)]
    [InlineData("+600000; mode idle", ClosingReason.Silence, ExamStatus.Open)]
    [InlineData("open Q-1002", ClosingReason.AnotherOpened, ExamStatus.Open)]
    public void An_exam_closes_by_rule(string script, object reason, object status)
    {
        var exam = Script.Run(Begin + script)[1];
        Assert.Equal(((ClosingReason)reason, (ExamStatus)status), (exam.Closing!.Reason, exam.Status));
    }

    [Fact]
    public void Before_the_silence_is_long_enough_it_stays_open()
    {
        var folded = Script.Run(Begin + "+598000; silence");
        Assert.Null(folded.Exam.Closing);
        Assert.Empty(folded.Book.SilentAt(new(1_602_400)));
        Assert.Single(folded.Book.SilentAt(new(folded.Exam.LastActivity.At.UnixMilliseconds + 600_000)));
    }

    [Theory]
    [InlineData("ready; mode idle; mode measure; +100")]
    [InlineData("off; boot; mode measure; +100")]
    [InlineData("+600000; silence")]
    [InlineData("aside")]
    public void A_later_capture_never_supersedes_across_the_border(string border)
    {
        var folded = Script.Run(Begin + border + "; pair R 4000");
        Assert.Equal(2, folded.Exams.Count);
        Assert.Equal(3200, Assert.Single(folded[1].Captures).Raw.Value);
        Assert.Equal(4000, Assert.Single(folded[2].Captures).Raw.Value);
        Assert.Null(folded[2].Patient);
    }

    [Fact]
    public void Measure_comes_again_before_the_swinging_blocks_without_a_border() =>
        Assert.Equal(2, Script.Run(Begin + "mode hold direct; directs; mode measure; pair R 3300").Exam.Captures.Count);

    [Theory]
    [InlineData("mode measure; +100; pair R 4000")]
    [InlineData("mode measure; +2000; dim; pair R 4000")]
    [InlineData("gap 1; pair R 4000")] // the dial's move was lost
    [InlineData("boot; pair R 4000")]
    public void Measure_after_the_swinging_blocks_is_a_new_exam(string script)
    {
        var folded = Script.Run(Begin + "mode hold short; swings 1000 4 R; swing short alike;" + script);
        Assert.Equal(2, folded.Exams.Count);
        Assert.Equal(ClosingReason.MeasureAgain, folded[1].Closing!.Reason);
        Assert.Equal(4000, Assert.Single(folded[2].Captures).Raw.Value);
    }

    [Fact]
    public void Measure_merely_passed_is_no_border()
    {
        var folded = Script.Run(
            Begin + "mode hold short; swings 1000 1 R; mode measure; +900; mode hold long; swings 3000 1 R"
        );
        Assert.Null(folded.Exam.Closing);
    }

    [Fact]
    public void A_dial_that_stayed_in_measure_and_went_on_has_ended_the_exam()
    {
        var folded = Script.Run(Begin + "mode hold short; swings 1000 1 R; mode measure; +3000; mode idle");
        Assert.Equal(ClosingReason.MeasureAgain, folded.Exam.Closing!.Reason);
    }

    [Fact]
    public void A_train_that_runs_on_after_an_exam_belongs_to_nobody()
    {
        var folded = Script.Run(
            Begin + "mode hold short; swings 1000 1 R; ready; swings 1000 2 L; open Q-1002; swings 1000 1 R"
        );
        Assert.Equal(2, folded.Exams.Count);
        Assert.Empty(folded[2].Stimuli);
        Assert.Equal(6, folded.Changes.OfType<EventOrphaned>().Count(o => o.Reason == OrphanReason.Remnant));
    }

    [Fact]
    public void A_dial_turned_from_block_to_block_after_an_exam_begins_nothing()
    {
        var folded = Script.Run(Begin + "mode hold short; swings 1000 1 R; ready; mode hold long; swings 3000 1 R");
        Assert.Equal(2, folded.Exam.Stimuli.Count);
        Assert.Equal(2, folded.Changes.OfType<EventOrphaned>().Count(o => o.Reason == OrphanReason.Remnant));
    }

    [Fact]
    public void After_a_restart_nothing_is_a_remnant()
    {
        var folded = Script.Run(Begin + "mode hold short; swings 1000 1 R; ready; boot; pair R 4000");
        Assert.Equal(4000, Assert.Single(folded[2].Captures).Raw.Value);
    }

    [Fact]
    public void Two_instruments_keep_their_exams_apart()
    {
        var folded = Script.Run(
            "@L1 meet A; @L2 meet B; @L1 bright; @L2 dim; @L1 open Q-1; @L2 open Q-2; +1000; @L1 mode measure; @L2 mode measure;"
                + "@L1 edge R N 5000; @L2 rest R 11000; @L1 edge R T 8000; @L2 rest R 16000; @L1 ready"
        );
        Assert.Equal((3000, RoomLight.Bright), (folded[1].Captures[0].Raw.Value, folded[1].Captures[0].Light!.Value));
        Assert.Equal((5000, RoomLight.Dim), (folded[2].Captures[0].Raw.Value, folded[2].Captures[0].Light!.Value));
        Assert.Null(folded[2].Closing);
    }

    [Theory]
    [InlineData("open Q-2", true)] // another one was opened
    [InlineData("off", true)]
    [InlineData("ready", false)]
    [InlineData("r: ready; undo r", true)]
    [InlineData("aside", false)]
    [InlineData("mode idle", false)]
    public void An_exam_that_is_over_and_was_not_made_ready_is_left_open(string then, bool isLeftOpen) =>
        Assert.Equal(
            isLeftOpen,
            Script.Run("meet A; bright; open Q-1; +1000; mode measure; pair R 3200; +1000;" + then)[1].IsLeftOpen
        );
}
