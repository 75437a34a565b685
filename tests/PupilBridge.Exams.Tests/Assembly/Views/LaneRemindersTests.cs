using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly.Views;

public class LaneRemindersTests
{
    private const string Begin =
        "meet A; line connected; bright; open Q-1001; +1000; mode measure; +500; pair R 3200; pair L 3150;";

    private static ReminderKind[] At(string script, long millisecondsLater, LaneReminderRules? rules = null)
    {
        var folded = Script.Run(script);
        var serial = new SerialNumber("Q7");
        var last = folded.Journal.Max(e =>
            e.Entry switch
            {
                InstrumentReported r => r.HappenedAt.UnixMilliseconds,
                PersonEntry p => p.At.UnixMilliseconds,
                SystemEntry s => s.At.UnixMilliseconds,
                _ => 0,
            }
        );
        var now = new UtcTime(last + millisecondsLater);
        var (lane, open) = (folded.Book.Lane(serial)!, folded.Book.OpenExamOf(serial));
        return [.. LaneReminders.Of(lane, open, now, rules).Select(r => r.Kind)];
    }

    [Theory]
    [InlineData("mode idle; ready", 119_999, false)]
    [InlineData("mode idle; ready", 120_000, true)]
    [InlineData("ready", 29_999, false)] // the dial stands in measure
    [InlineData("ready", 30_000, true)]
    [InlineData("mode idle", 500_000, false)] // the exam is not over
    [InlineData("mode idle; ready; +1000; off", 500_000, false)]
    [InlineData("mode idle; ready; line lost", 500_000, false)]
    [InlineData("mode idle; ready; line stalled", 500_000, false)]
    [InlineData("mode idle; ready; +100000; fix far", 100_000, false)] // it is in use
    [InlineData("mode idle; ready; +1000; off; +60000; boot; mode idle", 500_000, false)] // on again, for the next patient
    public void An_instrument_left_on_after_an_exam_is_reminded_of(string then, long later, bool isReminded) =>
        Assert.Equal(isReminded ? [ReminderKind.InstrumentLeftOn] : [], At(Begin + then, later));

    [Fact]
    public void Before_the_first_exam_nothing_was_left_on() =>
        Assert.Empty(At("meet A; line connected; mode idle; bright", 900_000));

    [Fact]
    public void The_times_are_settings() =>
        Assert.Equal(
            [ReminderKind.InstrumentLeftOn],
            At(Begin + "mode idle; ready", 10, new() { LeftOnAfterMilliseconds = 10 })
        );

    [Theory]
    [InlineData("mode hold near; fix near; near R 3; near L 3; mode idle; ready", 4_999, false)]
    [InlineData("mode hold near; fix near; near R 3; near L 3; mode idle; ready", 5_000, true)]
    [InlineData("mode hold near; fix near; near R 3; near L 3; mode idle; fix far; ready", 5_000, false)]
    [InlineData("fix near; mode idle; ready; +1000; open Q-1002; +6000; mode measure", 0, true)] // into the next exam
    [InlineData("mode idle; ready; +1000; open Q-1002; +1000; mode measure; fix near", 9_000, false)] // of this exam
    [InlineData("mode hold near; ready; +1000; fix near", 9_000, false)] // the dial stands on near
    public void Fixation_left_at_near_after_its_exam_is_reminded_of(string then, long later, bool isReminded) =>
        Assert.Equal(isReminded ? [ReminderKind.FixationLeftNear] : [], At(Begin + then, later));

    [Theory]
    [InlineData("mode hold near; fix near; near R 3", false)] // the other eye is still to be judged
    [InlineData("mode hold near; fix near; near R 3; near L 3", true)]
    [InlineData("status L prosthesis; mode hold near; fix near; near R 3", true)]
    [InlineData("mode hold near; fix near; near R 3; near L 3; fix far", false)]
    public void Within_the_exam_near_is_left_behind_once_both_eyes_were_judged(string then, bool isReminded) =>
        Assert.Equal(
            isReminded,
            Reminders.Of(Script.Run(Begin + then).Exam).Any(r => r.Kind == ReminderKind.FixationLeftNear)
        );
}
