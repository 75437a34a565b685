using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class LightAndDarkTests
{
    private const string Begin = "meet A; open Q-1001; +1000; mode measure; +500;";

    [Fact]
    public void Light_is_never_inferred_from_the_order_of_captures()
    {
        var exam = Script.Run(Begin + "pair R 3200; pair L 3200; +60000; pair R 5100; pair L 5100").Exam;
        Assert.All(exam.Captures, capture => Assert.Null(capture.Light));
        Assert.Equal(AskedFor.JudgeShape, Asked.Of(exam).For);
        Assert.Contains(Reminders.Of(exam), r => r.Kind == ReminderKind.LightNotSaid);
        Assert.Null(PupilSizes.Of(exam, Eye.Right, RoomLight.Dim));
    }

    [Theory]
    [InlineData("lux 100", RoomLight.Bright)]
    [InlineData("lux 30", RoomLight.Dim)]
    [InlineData("bright", RoomLight.Bright)]
    [InlineData("dim", RoomLight.Dim)]
    [InlineData("say bright", RoomLight.Bright)]
    [InlineData("say dim", RoomLight.Dim)]
    public void A_sensor_a_switch_or_a_person_says_it(string said, object light) =>
        Assert.Equal((RoomLight)light, Assert.Single(Script.Run(Begin + said + "; pair R 4000").Exam.Captures).Light);

    [Fact]
    public void Between_bright_and_dim_it_is_neither() =>
        Assert.Null(Assert.Single(Script.Run(Begin + "lux 60; pair R 4000").Exam.Captures).Light);

    [Fact]
    public void After_a_gap_the_light_must_be_said_again()
    {
        var exam = Script.Run(Begin + "bright; gap 2; pair R 4000; bright; pair R 4100").Exam;
        Assert.Equal([null, RoomLight.Bright], exam.Captures.Select(c => c.Light));
    }

    [Fact]
    public void A_light_taken_back_leaves_the_sizes_without_one()
    {
        var exam = Script.Run(Begin + "l: say dim; pair R 5000; undo l").Exam;
        Assert.Null(Assert.Single(exam.Captures).Light);
        Assert.Null(ExamConditions.LightNow(exam));
    }

    [Fact]
    public void What_a_person_says_now_does_not_tell_what_held_when_a_late_event_happened()
    {
        var folded = Script.Run(
            "meet A; bright; open Q-1; +1000; mode measure; hold; pair R 3200; +500; say dim; +500; release"
        );
        Assert.NotEqual(RoomLight.Dim, Assert.Single(folded.Exam.Captures).Light);
    }

    [Fact]
    public void Light_said_for_an_exam_that_is_over_is_not_applied()
    {
        var exam = Script.Run(Begin + "bright; pair R 3200; ready; say dim").Exam;
        Assert.Equal(RoomLight.Bright, exam.Captures[0].Light);
        Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
    }

    [Fact]
    public void Time_in_the_dark_runs_from_the_room_becoming_dim_and_anew_from_each_lamp_going_off()
    {
        var exam = Script
            .Run(
                Begin
                    + "dim; +10000; edge R N 5000; edge R T 9000; +5000; stim L 1000; +2000; edge R N 5000; edge R T 9000"
            )
            .Exam;
        Assert.Equal([10_000, 2_000], exam.Captures.Select(c => c.DarkMilliseconds!.Value));
    }

    [Fact]
    public void Saying_dim_again_does_not_start_the_time_in_the_dark_anew() =>
        Assert.Equal(
            16_000,
            Assert.Single(Script.Run(Begin + "dim; +10000; say dim; +5000; pair R 5000").Exam.Captures).DarkMilliseconds
        );

    [Fact]
    public void A_lamp_in_a_bright_room_starts_no_time_in_the_dark() =>
        Assert.Equal(
            2_000,
            Assert
                .Single(Script.Run(Begin + "bright; stim L 1000; +5000; dim; +1000; pair R 5000").Exam.Captures)
                .DarkMilliseconds
        );

    [Fact]
    public void In_bright_light_there_is_no_time_in_the_dark() =>
        Assert.Null(Assert.Single(Script.Run(Begin + "bright; pair R 3200").Exam.Captures).DarkMilliseconds);

    [Theory]
    [InlineData(5_000, 10_001, EqualityObstacle.DarkUnequalAndUnsettled)] // unequal, unsettled
    [InlineData(5_000, 10_000, EqualityObstacle.None)] // alike, though unsettled
    [InlineData(20_000, 60_000, EqualityObstacle.None)] // unequal, but both settled
    [InlineData(19_999, 60_000, EqualityObstacle.DarkUnequalAndUnsettled)] // one not settled
    public void Unequal_and_unsettled_times_in_the_dark_forbid_a_comparison(int right, int left, object expected)
    {
        var exam = Script
            .Run(
                Begin + $"dim; +{right}; edge R N 5000; edge R T 10000; +{left - right}; edge L N 5000; edge L T 10000"
            )
            .Exam;
        var equality = SizeEquality.Of(exam, RoomLight.Dim);
        Assert.Equal((EqualityObstacle)expected, equality.Obstacle);
        Assert.Equal(equality.Obstacle == EqualityObstacle.None ? LimitVerdict.Within : null, equality.Verdict);
        var again = Reminders.Of(exam).Where(r => r.Kind == ReminderKind.MeasureFirstEyeAgain).Select(r => r.Eye);
        Assert.Equal(equality.Verdict is null ? [Eye.Right] : Array.Empty<Eye?>(), again);
    }

    [Fact]
    public void Measuring_the_first_eye_again_settles_it()
    {
        var exam = Script.Run(Begin + "dim; +10000; pair R 5000; +9000; pair L 5000; pair R 5050").Exam;
        Assert.Equal(EqualityObstacle.None, SizeEquality.Of(exam, RoomLight.Dim).Obstacle);
    }
}
