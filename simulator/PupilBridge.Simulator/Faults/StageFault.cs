using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Faults;

/// <summary>What a fault can lay hands on beside the bytes.</summary>
public interface IFaultStage
{
    /// <summary>The instrument.</summary>
    SimulatedInstrument Instrument { get; }

    /// <summary>Whether the cable is in.</summary>
    bool IsPlugged { get; }

    /// <summary>Pulls the cable.</summary>
    void Unplug();

    /// <summary>Puts the cable back.</summary>
    void Replug();
}

/// <summary>A fault of the instrument or its cable.</summary>
public abstract class StageFault : Fault
{
    /// <summary>Names the fault.</summary>
    /// <param name="name">Its name in the catalogue.</param>
    protected StageFault(string name)
        : base(name) { }

    /// <summary>Does what is due. To be called often, whatever happens.</summary>
    /// <param name="stage">What it acts on.</param>
    /// <param name="now">The time, never less than at the call before.</param>
    public void Act(IFaultStage stage, TimeSpan now)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (IsActive)
        {
            Harm(stage, now);
        }
        else
        {
            Mend(stage);
        }
    }

    /// <summary>What it does while it is active.</summary>
    /// <param name="stage">What it acts on.</param>
    /// <param name="now">The time.</param>
    protected abstract void Harm(IFaultStage stage, TimeSpan now);

    /// <summary>Undoes what it did; called again and again while it is not active.</summary>
    /// <param name="stage">What it acted on.</param>
    protected virtual void Mend(IFaultStage stage) { }
}

/// <summary>A fault that lasts for a while and comes again.</summary>
public abstract class LastingFault : StageFault
{
    private readonly Episodes episodes;
    private bool isOn;

    /// <summary>Makes the fault.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="episodes">When.</param>
    protected LastingFault(string name, Episodes episodes)
        : base(name) => this.episodes = episodes;

    /// <inheritdoc/>
    protected override void Harm(IFaultStage stage, TimeSpan now)
    {
        var shouldBeOn = episodes.IsOn(now);
        if (shouldBeOn && !isOn && Begin(stage))
        {
            isOn = true;
            CountFired();
        }
        else if (!shouldBeOn && isOn)
        {
            Mend(stage);
        }
    }

    /// <inheritdoc/>
    protected override void Mend(IFaultStage stage)
    {
        if (isOn)
        {
            isOn = false;
            End(stage);
        }
    }

    /// <summary>Begins it.</summary>
    /// <param name="stage">What it acts on.</param>
    /// <returns>False if it cannot happen now, as when the cable is out already.</returns>
    protected abstract bool Begin(IFaultStage stage);

    /// <summary>Ends it.</summary>
    /// <param name="stage">What it acts on.</param>
    protected abstract void End(IFaultStage stage);
}

/// <summary>A fault that strikes at moments.</summary>
public abstract class StrikingFault : StageFault
{
    private readonly TimeSpan meanInterval;
    private readonly Chance chance;
    private TimeSpan? next;

    /// <summary>Makes the fault.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="meanInterval">Mean time between two strikes, each evenly spread from half to one and a half of it.</param>
    /// <param name="chance">Its chance.</param>
    protected StrikingFault(string name, TimeSpan meanInterval, Chance chance)
        : base(name)
    {
        this.meanInterval = meanInterval;
        this.chance = chance;
    }

    /// <inheritdoc/>
    protected override void Harm(IFaultStage stage, TimeSpan now)
    {
        next ??= now + Interval();
        if (now >= next)
        {
            next = now + Interval();
            if (Strike(stage))
            {
                CountFired();
            }
        }
    }

    /// <summary>Strikes.</summary>
    /// <param name="stage">What it acts on.</param>
    /// <returns>Whether it had an effect.</returns>
    protected abstract bool Strike(IFaultStage stage);

    private TimeSpan Interval() => meanInterval * chance.NextBetween(0.5, 1.5);
}
