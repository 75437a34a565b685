using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests.Projection;

/// <summary>Whoever asks for an exam of long ago stands and waits while the exam log is made anew, and no longer than that.</summary>
public sealed class WaitingForExamLogTests : IDisposable
{
    private static readonly JournalSequence Opening = new(1);
    private static readonly ExamId Id = ExamId.OpenedBy(Opening);

    private readonly TempFolder folder = new();
    private readonly ManualResetEventSlim journalMayBeRead = new();
    private readonly ManualResetEventSlim journalIsRead = new();
    private readonly UnwrittenChanges changes = new();
    private readonly ExamLogKeeper keeper;
    private Exam? found;
    private Exception? thrown;

    public WaitingForExamLogTests()
    {
        // A log of another run of the system is not trusted and must be made anew.
        ExamLogStore.Open(folder.Path).Dispose();
        File.WriteAllText(Path.Combine(folder.Path, "examlog", "state"), "open under another run of the system\n");
        keeper = new ExamLogKeeper(
            new ExamLogPlace(
                folder.Path,
                new ExamLogOptions(),
                _ => Journal(),
                TimeProvider.System,
                NullLogger.Instance
            )
        );
    }

    public void Dispose()
    {
        keeper.Dispose();
        journalMayBeRead.Dispose();
        journalIsRead.Dispose();
        folder.Dispose();
    }

    [Fact]
    public async Task It_waits_while_the_exam_log_is_made_anew_and_answers_when_it_is_done()
    {
        var asker = Ask();
        await Stands(asker);
        using var stop = new CancellationTokenSource();
        var loop = Task.Run(() => keeper.RunAsync(changes, stop.Token));
        Assert.True(journalIsRead.Wait(TimeSpan.FromSeconds(30)));
        await Stands(asker);
        journalMayBeRead.Set();
        await Ends(asker);
        Assert.Null(thrown);
        Assert.Equal(Id, found!.Id);
        await stop.CancelAsync();
        await loop;
    }

    [Fact]
    public async Task It_ends_when_the_service_stops()
    {
        var asker = Ask();
        await Stands(asker);
        keeper.Dispose();
        await Ends(asker);
        Assert.IsType<OperationCanceledException>(thrown);
    }

    [Fact]
    public async Task It_ends_when_the_writing_loop_does()
    {
        var asker = Ask();
        await Stands(asker);
        using var stop = new CancellationTokenSource();
        await stop.CancelAsync();
        await keeper.RunAsync(changes, stop.Token);
        await Ends(asker);
        Assert.IsType<OperationCanceledException>(thrown);
    }

    private IEnumerable<SequencedEntry> Journal()
    {
        journalIsRead.Set();
        Assert.True(journalMayBeRead.Wait(TimeSpan.FromSeconds(30)));
        yield return new(
            Opening,
            new ExamOpened
            {
                Id = new EntryId(1),
                Who = new PersonId("MK"),
                At = new(1_000_000),
                ProgramVersion = "test",
                Serial = new("T-100"),
                Patient = new PatientId("Q-1001"),
            }
        );
    }

    private Thread Ask()
    {
        var asker = new Thread(() =>
        {
            try
            {
                found = keeper.FindWaiting(Id);
            }
            catch (OperationCanceledException e)
            {
                thrown = e;
            }
        });
        asker.Start();
        return asker;
    }

    private static Task Stands(Thread asker) =>
        Eventually.Is(() => asker.ThreadState.HasFlag(ThreadState.WaitSleepJoin), () => asker.ThreadState.ToString());

    private static Task Ends(Thread asker) => Eventually.Is(() => !asker.IsAlive, () => asker.ThreadState.ToString());
}
