using System.Diagnostics;
using System.Globalization;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Faults;

public class KilledWriterTests
{
    private const int Seed = 17;

    /// <summary>One process after the other applies to the same exam log and is killed in the middle, without warning.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_killed_writer_loses_nothing_it_reported_and_a_replay_makes_it_whole(bool encrypt)
    {
        using var data = new DataFolder();
        var dice = new Random(4);
        var reached = 0L;
        for (var kill = 0; kill < 12; kill++)
        {
            var reported = await RunAndKill(data.Path, encrypt, afterLines: dice.Next(1, 60));

            using var store = ExamLogStore.Open(data.Path, Kind.Options(encrypt));
            // One transaction may have been written and not reported any more.
            Assert.True(store.LastApplied >= reported);
            Assert.True(store.LastApplied > reached);
            reached = store.LastApplied;
            store.Verify();
        }

        Assert.Equal(await DigestUpTo(reached), DigestOf(data.Path, encrypt));
    }

    private static async Task<long> RunAndKill(string folder, bool encrypt, int afterLines)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!)
        {
            RedirectStandardOutput = true,
            ArgumentList =
            {
                typeof(KilledWriterTests).Assembly.Location,
                "write",
                folder,
                Seed.ToString(CultureInfo.InvariantCulture),
                encrypt ? "encrypted" : "plain",
            },
        };
        using var process = Process.Start(start)!;
        var last = 0L;
        for (var line = 0; line < afterLines; line++)
        {
            var text = await process.StandardOutput.ReadLineAsync();
            Assert.NotNull(text);
            last = long.Parse(text, CultureInfo.InvariantCulture);
        }

        process.Kill();
        await process.WaitForExitAsync();
        return last;
    }

    private static ContentDigest DigestOf(string folder, bool encrypt)
    {
        using var store = ExamLogStore.Open(folder, Kind.Options(encrypt));
        return store.Verify();
    }

    private static Task<ContentDigest> DigestUpTo(long reached) =>
        Task.Run(() =>
        {
            using var data = new DataFolder();
            using var store = ExamLogStore.Open(data.Path);
            foreach (var (upTo, changes) in Samples.Stream(Seed, 100_000).TakeWhile(stretch => stretch.UpTo <= reached))
            {
                store.Apply(upTo, changes);
            }

            return store.Verify();
        });
}
