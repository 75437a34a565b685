using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Faults;

/// <summary>The cable comes out and is put back.</summary>
/// <param name="episodes">When.</param>
public sealed class UnpluggedCable(Episodes episodes) : LastingFault(FaultNames.Unplug, episodes)
{
    /// <inheritdoc/>
    protected override bool Begin(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (!stage.IsPlugged)
        {
            return false;
        }

        stage.Unplug();
        return true;
    }

    /// <inheritdoc/>
    protected override void End(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        stage.Replug();
    }
}

/// <summary>The instrument is switched off in order, and on again later.</summary>
/// <param name="episodes">When.</param>
public sealed class SwitchedOff(Episodes episodes) : LastingFault(FaultNames.PowerOff, episodes)
{
    /// <inheritdoc/>
    protected override bool Begin(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (stage.Instrument.Power != PowerState.On)
        {
            return false;
        }

        stage.Instrument.SwitchOff();
        return true;
    }

    /// <inheritdoc/>
    protected override void End(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        stage.Instrument.CutPower();
        stage.Instrument.SwitchOn();
    }
}

/// <summary>A scale sticks for a while.</summary>
/// <param name="episodes">When.</param>
/// <param name="eye">The eye whose scale it is.</param>
public sealed class StuckScale(Episodes episodes, Eye eye) : LastingFault(FaultNames.StuckScale, episodes)
{
    /// <inheritdoc/>
    protected override bool Begin(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);

        // It sticks as a hand moves it: a scale that nobody moves sticks unnoticed.
        if (!stage.Instrument.IsScaleMoving(eye))
        {
            return false;
        }

        stage.Instrument.StickScale(eye, isStuck: true);
        return true;
    }

    /// <inheritdoc/>
    protected override void End(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        stage.Instrument.StickScale(eye, isStuck: false);
    }
}

/// <summary>The instrument starts anew by itself, and loses what it kept.</summary>
/// <param name="meanInterval">Mean time between two of them.</param>
/// <param name="chance">Its chance.</param>
public sealed class SelfReboot(TimeSpan meanInterval, Chance chance)
    : StrikingFault(FaultNames.Reboot, meanInterval, chance)
{
    /// <inheritdoc/>
    protected override bool Strike(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (stage.Instrument.Power != PowerState.On)
        {
            return false;
        }

        stage.Instrument.Reboot();
        return true;
    }
}

/// <summary>A sensor chatters, so that more events come at once than the memory holds.</summary>
/// <param name="meanInterval">Mean time between two of them.</param>
/// <param name="chance">Its chance.</param>
public sealed class MemoryOverflow(TimeSpan meanInterval, Chance chance)
    : StrikingFault(FaultNames.Overflow, meanInterval, chance)
{
    private const int Beyond = 40;

    /// <inheritdoc/>
    protected override bool Strike(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        var before = stage.Instrument.Truth.Losses.Count;
        stage.Instrument.ChatterRoom(stage.Instrument.Options.KeptCapacity + Beyond);
        return stage.Instrument.Truth.Losses.Count > before;
    }
}

/// <summary>The instrument tells an event of a kind that the present protocol does not know.</summary>
/// <param name="meanInterval">Mean time between two of them.</param>
/// <param name="chance">Its chance.</param>
public sealed class UnknownEvent(TimeSpan meanInterval, Chance chance)
    : StrikingFault(FaultNames.UnknownEvent, meanInterval, chance)
{
    private int count;

    /// <inheritdoc/>
    protected override bool Strike(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (stage.Instrument.Power != PowerState.On)
        {
            return false;
        }

        stage.Instrument.TellUnknown(FormattableString.Invariant($"TILT,{count++ % 90},SPARE"));
        return true;
    }
}

/// <summary>The instrument's clock runs fast or slow.</summary>
/// <param name="partsPerMillion">By how much it runs fast (above 0) or slow.</param>
public sealed class DriftingClock(double partsPerMillion) : StageFault(FaultNames.Drift)
{
    /// <inheritdoc/>
    protected override void Harm(IFaultStage stage, TimeSpan now)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (!stage.Instrument.DriftPartsPerMillion.Equals(partsPerMillion))
        {
            stage.Instrument.DriftPartsPerMillion = partsPerMillion;
            CountFired();
        }
    }

    /// <inheritdoc/>
    protected override void Mend(IFaultStage stage)
    {
        ArgumentNullException.ThrowIfNull(stage);
        stage.Instrument.DriftPartsPerMillion = 0;
    }
}
