namespace PupilBridge.Voyage.Runs;

/// <summary>
/// The first, the second, the third … operation of the disk fails, once or from there on for two minutes, over a whole exam with
/// restarts of the service, until a run meets no failure. As SQLite tests I/O errors, over everything and not the journal alone.
/// </summary>
internal sealed class IoPoints
{
    private readonly Lock gate = new();
    private int next;
    private int firstClean = int.MaxValue;

    /// <summary>How many runs met a failure.</summary>
    public int Points { get; private set; }

    /// <summary>What must not be, by the operation that failed.</summary>
    public SortedDictionary<int, IReadOnlyList<string>> Failures { get; } = [];

    /// <summary>The exam: one instrument, restarts every few minutes, small segments so that making one fails too.</summary>
    /// <param name="failAt">The operation that fails.</param>
    /// <param name="failsOn">Whether those after it fail as well.</param>
    public static VoyagePlan Plan(int failAt, bool failsOn) =>
        VoyagePlan.Of(4).Calm() with
        {
            Instruments = 1,
            ExamsEach = 1,
            Restarts = TimeSpan.FromMinutes(6),
            SegmentBytes = 16 * 1024,
            ZerosAhead = 4096,
            FailAt = failAt,
            FailsOn = failsOn,
        };

    /// <summary>Fails each of them in turn.</summary>
    /// <param name="failsOn">Whether those after it fail as well.</param>
    /// <param name="stride">1 for each, more to try only every so many.</param>
    public void Run(bool failsOn, int stride)
    {
        (next, firstClean) = (1, int.MaxValue);
        var threads = Enumerable
            .Range(0, Math.Max(1, Environment.ProcessorCount))
            .Select(i => new Thread(() => FailOn(failsOn, stride)) { Name = $"points {i}" })
            .ToList();
        threads.ForEach(t => t.Start());
        threads.ForEach(t => t.Join());
    }

    private void FailOn(bool failsOn, int stride)
    {
        while (true)
        {
            int point;
            lock (gate)
            {
                point = next;
                next += stride;
                if (point >= firstClean)
                    return;
            }

            var result = Fleet.Outcome(Plan(point, failsOn));
            lock (gate)
            {
                if (result.Counts.FailedOperations > 0)
                    Points++;
                else
                    firstClean = Math.Min(firstClean, point);
                if (result.Problems.Count > 0)
                    Failures[point] = result.Problems;
            }
        }
    }
}
