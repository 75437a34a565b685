using PupilBridge.Scenarios.Oracle;

namespace PupilBridge.Voyage.Runs;

/// <summary>Many voyages, one seed each, on as many threads as there are cores; each voyage has one thread to itself.</summary>
internal sealed class Fleet
{
    private readonly Lock gate = new();
    private long next;

    public RunCounts Counts { get; } = new();

    public AuditResult Events { get; private set; } = AuditResult.None;

    /// <summary>What must not be, by seed.</summary>
    public SortedDictionary<long, IReadOnlyList<string>> Failures { get; } = [];

    public int Voyages { get; private set; }

    /// <summary>Sails until so many exam-hours are done, or so much time has passed.</summary>
    /// <param name="firstSeed">The first seed; the others follow it.</param>
    /// <param name="examHours">How many exam-hours.</param>
    /// <param name="atMost">How long at most: no voyage begins after it; null for as long as it takes.</param>
    public void Sail(long firstSeed, double examHours, TimeSpan? atMost = null)
    {
        next = firstSeed;
        var from = TimeProvider.System.GetTimestamp();
        bool IsOver() => Counts.ExamTime.TotalHours >= examHours || TimeProvider.System.GetElapsedTime(from) >= atMost;
        var threads = Enumerable
            .Range(0, Math.Max(1, Environment.ProcessorCount))
            .Select(i => new Thread(() => SailOn(IsOver)) { Name = $"voyage {i}" })
            .ToList();
        threads.ForEach(t => t.Start());
        threads.ForEach(t => t.Join());
    }

    private void SailOn(Func<bool> isOver)
    {
        while (true)
        {
            long seed;
            lock (gate)
            {
                if (isOver())
                    return;
                seed = next++;
            }

            Note(seed, Outcome(VoyagePlan.Of(seed)));
        }
    }

    /// <summary>One voyage; what is thrown out of it is a finding like any other.</summary>
    public static VoyageResult Outcome(VoyagePlan plan)
    {
        try
        {
            return VoyageRun.Run(plan);
        }
        catch (Exception e)
        {
            return new VoyageResult(
                plan,
                [e.ToString()],
                AuditResult.None,
                new RunCounts(),
                new Dictionary<string, byte[]>(),
                ""
            );
        }
    }

    private void Note(long seed, VoyageResult result)
    {
        lock (gate)
        {
            Voyages++;
            Counts.Add(result.Counts);
            Events += result.Events;
            if (result.Problems.Count > 0)
                Failures[seed] = result.Problems;
        }
    }
}
