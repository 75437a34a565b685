using PupilBridge.SimulatedDisk;
using PupilBridge.Voyage.Runs;

namespace PupilBridge.Voyage.World;

/// <content>What befalls the machine and the service, and how it ends.</content>
internal sealed partial class VoyageWorld
{
    private readonly List<(TimeSpan At, Action End)> endings = [];
    private bool powerGoesWithIt;
    private bool strikesAtStart;
    private bool strikesErasure;

    /// <summary>An erasure is about to be ordered: now and then the machine goes down within it, or a moment after it was recorded.</summary>
    private void StrikeErasure()
    {
        if (isOver || !erasing.Happens(plan.ErasuresCutOff))
            return;
        var powerGoes = erasing.Happens(0.5);
        if (erasing.Happens(0.7))
        {
            (powerGoesWithIt, strikesErasure) = (powerGoes, true);
            Disk.DieAt = Disk.Operations + erasing.NextInteger(1, 14);
            return;
        }

        endings.Add(
            (
                Clock.Now + TimeSpan.FromSeconds(erasing.NextBetween(0.5, 30)),
                () =>
                {
                    if (service is null)
                        return;
                    powerGoesWithIt = powerGoes;
                    Counts.Fired(powerGoes ? Trouble.PowerCutWithinErasure : Trouble.DeathWithinErasure);
                    Die();
                }
            )
        );
    }

    private void Befall()
    {
        if (plan.FailsOn && Disk.Failed > 0 && Disk.FailAt == plan.FailAt && endings.Count == 0)
            endings.Add((Clock.Now + TimeSpan.FromMinutes(2), () => Disk.FailAt = 0));
        if (endings.Count > 0)
        {
            foreach (var (at, end) in endings.Where(e => e.At <= Clock.Now).ToList())
            {
                endings.Remove((at, end));
                end();
            }
        }

        if (troubles.NextDue > Clock.Now)
            return;
        foreach (var trouble in troubles.Due(Clock.Now))
        {
            if (Happens(trouble))
                Counts.Fired(trouble);
        }
    }

    /// <summary>Whether it can happen now, and did.</summary>
    private bool Happens(Trouble trouble)
    {
        switch (trouble)
        {
            case Trouble.DeathBetweenSteps when service is not null:
                Die();
                return true;
            case Trouble.PowerCut when service is not null:
                powerGoesWithIt = true;
                Die();
                return true;
            case Trouble.DeathWithinOperation or Trouble.PowerCutWithinOperation when service is not null:
                powerGoesWithIt = trouble == Trouble.PowerCutWithinOperation;
                Disk.DieAt = Disk.Operations + chance.NextInteger(1, 12);
                // Counted when it strikes.
                return false;
            case Trouble.DiskFails:
                Fail(1, null);
                return true;
            case Trouble.DiskFailsForAWhile:
                Fail(int.MaxValue, TimeSpan.FromSeconds(chance.NextBetween(1, 60)));
                return true;
            case Trouble.NamesFail:
                Disk.FailNext.UnionWith(KindsOfNames);
                return true;
            case Trouble.PowerCutAtStart when service is not null:
                Die();
                (powerGoesWithIt, strikesAtStart) = (true, true);
                Disk.DieAt = Disk.Operations + chance.NextInteger(1, 10);
                // Counted when it strikes.
                return false;
            case Trouble.DiskFull:
                Disk.Capacity = Disk.UsedBytes + chance.NextInteger(0, 3000);
                endings.Add(
                    (Clock.Now + TimeSpan.FromSeconds(chance.NextBetween(5, 180)), () => Disk.Capacity = long.MaxValue)
                );
                return true;
            case Trouble.ClockForwards:
                Clock.Set(TimeSpan.FromSeconds(Math.Pow(10, chance.NextBetween(-1, 5))));
                return true;
            case Trouble.ClockBackwards:
                Clock.Set(-TimeSpan.FromSeconds(Math.Pow(10, chance.NextBetween(-1, 5))));
                return true;
            case Trouble.Restart when service is not null:
                StopInOrder();
                return true;
            case Trouble.KeyChange when service is not null:
                StopInOrder();
                Protection.BeginChange();
                // Counted when it has come to its end.
                return false;
            case Trouble.Rot when service is not null:
                powerGoesWithIt = true;
                Die();
                return RotOldRecords();
            default:
                return false;
        }
    }

    private static readonly DiskFault[] KindsOfNames =
    [
        DiskFault.OpenFailed,
        DiskFault.RenameFailed,
        DiskFault.DeleteFailed,
        DiskFault.CutFailed,
        DiskFault.FolderSyncFailed,
    ];

    private void Fail(int operations, TimeSpan? until)
    {
        Disk.FailAt = Disk.Operations + chance.NextInteger(1, 10);
        Disk.FailFor = operations;
        if (until is { } time)
            endings.Add((Clock.Now + time, () => Disk.FailAt = 0));
    }

    /// <summary>The process is dead, perhaps with the machine: what it had in memory is gone.</summary>
    private void Die()
    {
        if (Disk.IsProcessDead)
        {
            Counts.Fired(
                strikesErasure && powerGoesWithIt ? Trouble.PowerCutWithinErasure
                : strikesErasure ? Trouble.DeathWithinErasure
                : strikesAtStart ? Trouble.PowerCutAtStart
                : powerGoesWithIt ? Trouble.PowerCutWithinOperation
                : Trouble.DeathWithinOperation
            );
        }

        (strikesAtStart, strikesErasure) = (false, false);
        Disk.DieAt = 0;
        if (service is { } dead)
        {
            NotePeaks(dead);
            dead.Abandon();
        }

        if (powerGoesWithIt)
            Disk.LosePower();
        powerGoesWithIt = false;
        Gone();
    }

    /// <summary>The machine is off, and its disk decays: a byte of a record that something later vouches for.</summary>
    private bool RotOldRecords()
    {
        var rotten = false;
        for (var i = chance.NextInteger(1, 4); i > 0; i--)
            rotten |= Rotten.TryRot(Disk, Folder, chance);
        return rotten;
    }

    private void EndTroubles()
    {
        Disk.FailAt = 0;
        Disk.DieAt = 0;
        Disk.FailNext.Clear();
        Disk.Capacity = long.MaxValue;
        (powerGoesWithIt, strikesAtStart, strikesErasure, isOver) = (false, false, false, true);
        endings.Clear();
        foreach (var lane in Lanes)
        {
            if (!ReferenceEquals(lane.Faults, Simulator.Faults.FaultSet.None))
                lane.Faults.IsActive = false;
            lane.Wake();
        }
    }

    private void Count()
    {
        foreach (var (lane, examiner) in Lanes.Zip(examiners))
        {
            Counts.Exams += examiner.Done;
            Counts.ExamTime += examiner.Examining;
            Counts.AddLine(lane.Faults.Fired);
        }

        Counts.VirtualTime = Clock.Now;
        Counts.FailedOperations = Disk.Failed;
        Counts.SentAgain = clerks.Sum(c => c.SentAgain);
        Counts.ExamLogRebuilds = log.Rebuilds;
        Counts.Erasures = new ErasureCounts(
            Orders.Orders.Count,
            Orders.Orders.Values.Count(order => order.IsDone == true),
            Orders.Orders.Values.Count(order => order.IsDone == false),
            Orders.CutOff
        );
        Counts.AddDisk(Disk.Fired);
        Counts.Fired(Trouble.KeyChange, Protection.Changes);
    }
}
