using System.Text;

namespace PupilBridge.Journal.Tests.Writing;

public sealed class JournalThreadTests : IDisposable
{
    private readonly TempJournal _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task What_is_appended_is_durable_in_order_and_read_back_after_a_clean_stop()
    {
        using (var journal = new JournalThread(_temp.Open()))
        {
            Assert.True(journal.Start.IsFirst);
            JournalSource source = journal.OpenSource("Quay-A");
            for (int i = 1; i <= 100; i++)
                Assert.Equal(i, await source.AppendAsync(Encoding.UTF8.GetBytes($"entry {i}")));
            Assert.Equal(100, journal.Durable.Position.Sequence);
            Assert.True(journal.Stop());
        }
        using JournalReader reader = JournalReader.Settled(RealDisk.Instance, _temp.Folder);
        JournalRecord[] records = [.. reader.ReadAll()];
        Assert.Equal(101, records.Length);
        Assert.All(
            records.Take(100),
            r => Assert.Equal($"entry {r.Sequence}", Encoding.UTF8.GetString(r.Payload.Span))
        );
        Assert.Equal(RecordClass.CleanStop, records[100].Class);
        VerifyReport report = _temp.Verify();
        Assert.Empty(report.Problems);
        Assert.True(report.EndsCleanly);
        using JournalWriter again = _temp.Open();
        Assert.True(again.Start.LastStopWasClean);
        Assert.True(again.Start.SameBoot);
        Assert.Equal(102, again.Append("x"u8));
    }
}
