using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly.Views;

public class DarkTimesTests
{
    private const string Begin = "meet A; open Q-1001; +1000; mode measure; +500;";

    private static (long? Right, long? Left) At(string script, long clock)
    {
        var folded = Script.Run(script);
        var times = DarkTimes.Of(folded.Book.Lane(new("Q7"))!, folded.Exams.Values.Last());
        var now = new UtcTime(1_000_000 + clock);
        return (Passed(times.Since.Right), Passed(times.Since.Left));

        long? Passed(Moment? since) => since is { } dark ? now.MillisecondsSince(dark.At) : null;
    }

    [Theory]
    [InlineData("dim", 11_500, 10_000L)]
    [InlineData("bright", 11_500, null)]
    [InlineData("dim; +1000; bright", 11_500, null)]
    [InlineData("dim; +1000; lamp L on", 11_500, null)]
    [InlineData("dim; +1000; stim L 1000", 11_500, 8_000L)] // light in one eye narrows both pupils
    [InlineData("lux 60", 11_500, null)]
    [InlineData("dim; gap 2", 11_500, null)]
    [InlineData("dim; ready", 11_500, null)] // the exam is over
    [InlineData("dim; off", 11_500, null)]
    public void Both_eyes_are_in_the_dark_since_the_room_or_the_last_lamp_went_dark(
        string said,
        long clock,
        object? time
    ) => Assert.Equal(((long?)time, (long?)time), At(Begin + said, clock));

    [Fact]
    public void Another_exam_of_the_lane_has_none() =>
        Assert.Equal((null, null), At(Begin + "dim; mode idle; +5000; open Q-2; ready", 60_000));

    [Theory]
    [InlineData("dim; +19999; edge R N 5000; edge R T 9000", new[] { Eye.Right })]
    [InlineData("dim; +20000; edge R N 5000; edge R T 9000", new Eye[0])]
    [InlineData("dim; +10000; pair R 5000; pair L 5000", new[] { Eye.Right, Eye.Left })]
    [InlineData("bright; pair R 5000; pair L 5000", new Eye[0])]
    [InlineData("dim; +1000; pair R 5000; +9000; pair L 5000", new Eye[0])] // unequal: the first eye is offered again
    public void A_dim_size_taken_before_the_eye_had_settled_is_reminded_of(string script, object eyes)
    {
        var exam = Script.Run(Begin + script).Exam;
        var found = Reminders.Of(exam).Where(r => r.Kind == ReminderKind.DimTakenTooSoon).Select(r => r.Eye!.Value);
        Assert.Equal((Eye[])eyes, found);
    }
}
