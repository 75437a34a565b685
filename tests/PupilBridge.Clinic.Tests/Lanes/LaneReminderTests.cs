using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneReminderTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Fact]
    public async Task An_instrument_left_on_after_an_exam_is_reminded_of_as_time_passes()
    {
        lane.Clinic.House.Add(lane.Instrument.Line(LineState.Connected));
        await lane.WithEverythingShownAsync();
        await EndAsync();

        Assert.Empty((await LookAsync(TimeSpan.Zero, LaneSettings.Default)).Reminders);
        var reminder = Assert.Single((await LookAsync(TimeSpan.FromMinutes(3), LaneSettings.Default)).Reminders);

        Assert.Equal(("instrument-left-on", true), (reminder.Kind, reminder.IsUrgent));
        Assert.Contains("switch it off", reminder.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_clinic_does_not_want_to_be_reminded_of_is_left_out()
    {
        lane.Clinic.House.Add(lane.Instrument.Line(LineState.Connected));
        await lane.Clinic.OpenAsync();
        Assert.Contains((await lane.ExamAsync()).Reminders, reminder => reminder.Kind == "light-not-said");
        var quiet = new LaneSettings { Quiet = LaneSettings.ReadQuiet(["light-not-said", "Instrument-Left-On"]) };

        Assert.DoesNotContain(
            (await LookAsync(TimeSpan.Zero, quiet)).Exam!.Reminders,
            reminder => reminder.Kind == "light-not-said"
        );
        await EndAsync();
        Assert.Empty((await LookAsync(TimeSpan.FromMinutes(3), quiet)).Reminders);
    }

    [Fact]
    public void A_word_that_names_no_reminder_is_refused_with_those_that_do()
    {
        var problem = Assert.Throws<EntryProblemException>(() => LaneSettings.ReadQuiet(["everything"]));

        Assert.Contains("'everything'", problem.Message, StringComparison.Ordinal);
        Assert.Contains("near-due", problem.Message, StringComparison.Ordinal);
        Assert.Equal(Enum.GetValues<ReminderKind>().Length, LaneSettings.Words.Count);
    }

    public void Dispose() => lane.Dispose();

    private async Task EndAsync() => await lane.EnterAsync(lane.Clinic.Ready((await lane.ExamAsync()).Exam));

    private async Task<LaneBoard> LookAsync(TimeSpan later, LaneSettings settings)
    {
        var time = new FakeTimeProvider(lane.Instrument.Now + later);
        var desk = new LaneDesk(lane.Clinic.House, lane.Clinic.Desk, time, settings);
        return (await desk.LookAtLaneAsync(Support.Clinic.Serial, CancellationToken.None))!;
    }
}
