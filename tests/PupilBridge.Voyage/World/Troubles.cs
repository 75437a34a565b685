using PupilBridge.Simulator;
using PupilBridge.Voyage.Runs;

namespace PupilBridge.Voyage.World;

/// <summary>What can befall the machine and the service.</summary>
internal enum Trouble
{
    /// <summary>The process dies between two steps.</summary>
    DeathBetweenSteps,

    /// <summary>The process dies within one of the next operations of the disk.</summary>
    DeathWithinOperation,

    /// <summary>The power fails between two steps.</summary>
    PowerCut,

    /// <summary>The power fails within one of the next operations of the disk.</summary>
    PowerCutWithinOperation,

    /// <summary>One operation of the disk fails.</summary>
    DiskFails,

    /// <summary>All operations of the disk fail for a while.</summary>
    DiskFailsForAWhile,

    /// <summary>The next opening, renaming, deleting, cutting and syncing of names fails, each once.</summary>
    NamesFail,

    /// <summary>The disk is full for a while.</summary>
    DiskFull,

    /// <summary>The process dies, and the power fails within an operation of the start that follows.</summary>
    PowerCutAtStart,

    /// <summary>The time of day is set forwards.</summary>
    ClockForwards,

    /// <summary>The time of day is set backwards.</summary>
    ClockBackwards,

    /// <summary>The service is stopped in order.</summary>
    Restart,

    /// <summary>A byte of an old record changes, while the machine is off.</summary>
    Rot,

    /// <summary>The service is stopped, and everything that is encrypted is wrapped under a new master key.</summary>
    KeyChange,

    /// <summary>The process dies while an erasure is carried out.</summary>
    DeathWithinErasure,

    /// <summary>The power fails while an erasure is carried out.</summary>
    PowerCutWithinErasure,
}

/// <summary>When which trouble comes, from the seed.</summary>
internal sealed class Troubles
{
    private readonly Chance chance;
    private readonly List<(TimeSpan Mean, Trouble[] Kinds)> sources = [];
    private readonly List<TimeSpan> next = [];

    public Troubles(VoyagePlan plan)
    {
        chance = new Chance(plan.Seed, "troubles");
        Add(plan.Deaths, Trouble.DeathBetweenSteps, Trouble.DeathWithinOperation, Trouble.DeathWithinOperation);
        Add(plan.PowerCuts, Trouble.PowerCut, Trouble.PowerCutWithinOperation, Trouble.PowerCutWithinOperation);
        Add(plan.DiskFailures, Trouble.DiskFails, Trouble.DiskFails, Trouble.DiskFailsForAWhile);
        Add(plan.FullDisks, Trouble.DiskFull);
        Add(plan.ClockSteps, Trouble.ClockForwards, Trouble.ClockBackwards);
        Add(plan.Restarts, Trouble.Restart);
        Add(plan.Rot, Trouble.Rot);
        Add(plan.KeyChanges, Trouble.KeyChange);
        Add(plan.TroublesWithNames, Trouble.NamesFail, Trouble.PowerCutAtStart);
    }

    /// <summary>When the next one comes.</summary>
    public TimeSpan NextDue { get; private set; } = TimeSpan.MaxValue;

    /// <summary>What comes by now, one after the other.</summary>
    public IEnumerable<Trouble> Due(TimeSpan now)
    {
        for (var i = 0; i < sources.Count; i++)
        {
            if (next[i] > now)
                continue;
            next[i] = now + Interval(sources[i].Mean);
            NextDue = next.Min();
            yield return sources[i].Kinds[chance.NextInteger(0, sources[i].Kinds.Length)];
        }
    }

    private void Add(TimeSpan? mean, params Trouble[] kinds)
    {
        if (mean is not { } every)
            return;
        sources.Add((every, kinds));
        next.Add(Interval(every));
        NextDue = next.Min();
    }

    private TimeSpan Interval(TimeSpan mean) => mean * chance.NextBetween(0.2, 1.8);
}
