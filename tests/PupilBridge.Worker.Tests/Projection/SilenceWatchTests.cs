using Microsoft.Extensions.Time.Testing;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Sessions;
using PupilBridge.Worker.Tests.Lines;

namespace PupilBridge.Worker.Tests.Projection;

public sealed class SilenceWatchTests
{
    [Fact]
    public async Task An_exam_that_nobody_goes_on_with_is_ended_by_an_entry_written_once()
    {
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 11, 25, 9, 0, 0, TimeSpan.Zero));
        using var bench = new LineBench(time);
        var tracker = new ExamTracker(_ => null);
        var clock = new MomentClock(time);
        var watch = new SilenceWatch(tracker, bench.Around.Keeper, clock);
        tracker.Apply(
            new SequencedEntry(
                new JournalSequence(1),
                new ExamOpened
                {
                    Id = new EntryId(1),
                    Who = new PersonId("MK"),
                    At = clock.Now.At,
                    ProgramVersion = "test",
                    Serial = new SerialNumber("T-100"),
                    Patient = null,
                }
            )
        );

        time.Advance(TimeSpan.FromMinutes(9.9));
        watch.Look();
        Assert.Equal(0, bench.Around.Keeper.Durable.Sequence + bench.Around.Keeper.Waiting);

        time.Advance(TimeSpan.FromMinutes(0.2));
        watch.Look();
        watch.Look();
        await Eventually.Is(() => bench.Around.Keeper is { Waiting: 0, Durable.Sequence: 1 });
        tracker.Apply(
            new SequencedEntry(
                new JournalSequence(2),
                new SilenceReached { At = clock.Now.At, Serial = new SerialNumber("T-100") }
            )
        );
        Assert.Equal(ClosingReason.Silence, tracker.Find(new ExamId(1))!.Closing!.Reason);
        watch.Look();
        Assert.True(bench.Around.Keeper is { Waiting: 0, Durable.Sequence: 1 });
    }
}
