using System.Text;

namespace PupilBridge.Journal.Tests.Faults;

/// <summary>
/// Keeps, outside the journal, what was given to it and what it said was durable, over any number of starts, and compares.
/// It knows nothing of the journal's files.
/// </summary>
internal sealed class Life(FaultyDisk disk, JournalOptions options, Random chance)
{
    private readonly SortedDictionary<long, string> _acknowledged = [];
    private readonly Dictionary<long, string> _given = [];
    private int _made;

    /// <summary>With what the next run opens the journal.</summary>
    public JournalOptions Options { get; set; } = options;

    public int Acknowledged => _acknowledged.Count;

    public int FailedCommits { get; private set; }

    /// <summary>One run: batches of random entries, each commit tried until it succeeds or the tries are used up.</summary>
    /// <returns>Whether all went well.</returns>
    public bool Run(int batches, int tries, bool stop)
    {
        using JournalWriter writer = JournalWriter.Open(disk, Options);
        _given.Clear();
        for (int i = 0; i < batches; i++)
        {
            for (int n = chance.Next(1, 6); n > 0; n--)
            {
                string text =
                    $"made {++_made} " + new string('x', chance.Next(4) == 0 ? chance.Next(2000) : chance.Next(60));
                _given[writer.Append(Encoding.UTF8.GetBytes(text))] = text;
            }
            if (!Commit(writer, tries))
                return false;
        }
        return !stop || writer.StopCleanly().IsDurable;
    }

    /// <summary>What was acknowledged is there; what is there beyond it was given at that place; there is no hole.</summary>
    public void Check()
    {
        List<JournalRecord> records = MemoryJournal.ReadAll(disk);
        Assert.Equal(Enumerable.Range(1, records.Count), records.Select(r => (int)r.Sequence));
        Dictionary<long, string> found = records
            .Where(r => r.Class == RecordClass.Entry)
            .ToDictionary(r => r.Sequence, r => Encoding.UTF8.GetString(r.Payload.Span));
        foreach ((long sequence, string text) in _acknowledged)
            Assert.Equal(text, found.GetValueOrDefault(sequence, $"{sequence} is lost"));
        foreach ((long sequence, string text) in found)
        {
            if (_acknowledged.ContainsKey(sequence))
                continue;
            Assert.Equal(_given.GetValueOrDefault(sequence, $"{sequence} was never given"), text);
            // It is there now, so it must stay.
            _acknowledged[sequence] = text;
        }
    }

    /// <summary>After a start that mended what was to be mended, the journal is sound.</summary>
    public void CheckSound()
    {
        JournalWriter.Open(disk, Options).Dispose();
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.True(report.IsSound, string.Join('\n', report.Problems));
        Check();
    }

    private bool Commit(JournalWriter writer, int tries)
    {
        for (int i = 0; i < tries; i++)
        {
            JournalPosition before = writer.Durable;
            JournalCommit outcome = writer.Commit();
            if (outcome.IsDurable)
            {
                for (long sequence = before.Sequence + 1; sequence <= outcome.Durable.Sequence; sequence++)
                {
                    if (_given.TryGetValue(sequence, out string? text))
                        _acknowledged[sequence] = text;
                }
                return true;
            }
            FailedCommits++;
            Assert.Equal(before.Sequence, writer.Durable.Sequence);
            Assert.False(string.IsNullOrWhiteSpace(outcome.Trouble?.Message));
        }
        return false;
    }
}
