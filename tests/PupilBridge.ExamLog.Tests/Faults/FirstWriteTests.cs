using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Faults;

/// <summary>
/// Whoever reads while the first document of a kind is written finds it, or nothing. The engine shows a collection that is just being made
/// to readers before its page is one, so that none may be made after the exam log is open.
/// </summary>
public class FirstWriteTests
{
    [Fact]
    public async Task Readers_during_the_very_first_write_never_break_the_exam_log()
    {
        for (var round = 0; round < 60; round++)
        {
            using var folder = new DataFolder();
            using var log = ExamLogStore.Open(folder.Path);
            using var done = new CancellationTokenSource();
            var reads = 0L;
            var readers = Enumerable
                .Range(0, 3)
                .Select(_ =>
                    Task.Factory.StartNew(
                        () =>
                        {
                            while (!done.IsCancellationRequested)
                            {
                                log.FindPatient("Q-1001");
                                log.FindLookUp("people", "MK");
                                log.ListInstruments();
                                log.ListOutbox(OutboxList.Open);
                                log.SearchPatients("q");
                                Interlocked.Increment(ref reads);
                            }
                        },
                        CancellationToken.None,
                        TaskCreationOptions.LongRunning,
                        TaskScheduler.Default
                    )
                )
                .ToArray();
            while (Volatile.Read(ref reads) == 0 && !readers.Any(reader => reader.IsFaulted))
                await Task.Yield();
            log.Apply(
                1,
                new ExamLogChanges
                {
                    Patients =
                    [
                        new StoredPatient
                        {
                            Id = "Q-1001",
                            Name = "",
                            Body = new byte[] { 1 },
                        },
                    ],
                    Instruments = [new StoredInstrument { Id = "QA-1", Body = new byte[] { 2 } }],
                    LookUps =
                    [
                        new StoredLookUp
                        {
                            List = "people",
                            Key = "MK",
                            Text = "",
                        },
                    ],
                }
            );
            await done.CancelAsync();
            await Task.WhenAll(readers);
            Assert.NotNull(log.FindPatient("Q-1001"));
        }
    }
}
