using System.Diagnostics;

namespace PupilBridge.Fuzz.Engine;

/// <summary>What a target's run came to.</summary>
internal sealed record CampaignResult(
    TargetInfo Target,
    long Inputs,
    long Units,
    int Kept,
    int Behaviours,
    double Seconds,
    double WarmMegabytes,
    double EndMegabytes,
    Failure? Failure
);

/// <summary>Runs one target on all cores, with a watchdog and an eye on memory.</summary>
internal static class Campaign
{
    public static CampaignResult Run(TargetInfo target, long units, ulong seed, Watchdog watchdog)
    {
        var clock = Stopwatch.StartNew();
        var cores = Environment.ProcessorCount;
        var made = Enumerable.Range(0, cores).Select(_ => target.Make()).ToList();
        var results = new LoopResult[cores];
        var failed = 0;
        var workers = Enumerable
            .Range(0, cores)
            .Select(core => new Thread(() =>
            {
                var loop = new FuzzLoop(made[core], Dice.Mix(seed, (ulong)core), watchdog.Watch(target.Name));
                results[core] = loop.Run(units / cores, () => Volatile.Read(ref failed) > 0);
                if (results[core].Failure is not null)
                    Interlocked.Increment(ref failed);
            }))
            .ToList();
        workers.ForEach(worker => worker.Start());
        var warm = 0.0;
        while (workers.Exists(worker => worker.IsAlive))
        {
            workers.Find(worker => worker.IsAlive)!.Join(TimeSpan.FromMilliseconds(200));
            // After a tenth of the work everything has been compiled and the corpora have found most of what they find.
            if (warm == 0 && made.Sum(one => one.Units) > units / 10)
                warm = Memory();
        }

        foreach (var one in made)
            (one as IDisposable)?.Dispose();
        return new CampaignResult(
            target,
            results.Sum(r => r.Inputs),
            results.Sum(r => r.Units),
            results.Sum(r => r.Kept),
            results.Sum(r => r.Behaviours),
            clock.Elapsed.TotalSeconds,
            warm,
            Memory(),
            results.Select(r => r.Failure).FirstOrDefault(f => f is not null)
        );
    }

    /// <summary>The resident memory of this process in megabytes, after everything was collected that nobody holds.</summary>
    public static double Memory()
    {
        GC.Collect(2, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        using var self = Process.GetCurrentProcess();
        return self.WorkingSet64 / 1048576.0;
    }
}
