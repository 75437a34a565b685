using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;

namespace PupilBridge.Simulator.Devices;

/// <content>Switching on and off, commands, and things that go wrong inside it.</content>
public sealed partial class SimulatedInstrument
{
    /// <summary>By how many parts in a million its clock runs fast (above 0) or slow.</summary>
    public double DriftPartsPerMillion
    {
        get => body.Clock.DriftPartsPerMillion;
        set => body.Clock.DriftPartsPerMillion = value;
    }

    /// <summary>Switches it on: a new boot, ticks from 0. Does nothing if it is on.</summary>
    public void SwitchOn()
    {
        if (Power != PowerState.Off)
        {
            return;
        }

        var boot = new BootNumber(boots.NextBits());
        body.Clock.Restart();
        Truth.Booted(boot);
        Power = PowerState.On;
        // Measured before the first heartbeat, which tells it.
        TellBattery();
        Step(new InstrumentLinkInput.SwitchedOn(boot, lineNow, Tick));
        body.PowerUp();
    }

    /// <summary>Switches it off in order: it says so, and waits for the acknowledgement for at most two seconds.</summary>
    public void SwitchOff()
    {
        if (Power != PowerState.On)
        {
            return;
        }

        body.PowerDown();
        body.Tell(InstrumentEvent.SwitchedOff(Tick));
        Power = PowerState.GoingOff;
        offSince = lineNow;
    }

    /// <summary>The current fails: it is off at once and what it kept is lost.</summary>
    public void CutPower()
    {
        if (Power != PowerState.Off)
        {
            outgoing.ResetWrittenCount();
            EndBoot("current cut");
        }
    }

    /// <summary>It starts anew by itself: what it kept is lost.</summary>
    public void Reboot()
    {
        CutPower();
        SwitchOn();
    }

    /// <summary>Holds a scale fast, or lets it go.</summary>
    /// <param name="eye">The eye whose scale it is.</param>
    /// <param name="isStuck">Whether it sticks from now on.</param>
    public void StickScale(Eye eye, bool isStuck) => body.Scale(eye).IsStuck = isStuck;

    /// <summary>Its light sensor or switch chatters: the state of the room is told many times over.</summary>
    /// <param name="times">How often, 0 or more.</param>
    public void ChatterRoom(int times)
    {
        for (var i = 0; i < times; i++)
        {
            body.ChatterRoom(i);
        }
    }

    /// <summary>Tells an event of a kind that the present protocol does not know.</summary>
    /// <param name="kindAndFields">Kind and fields as on the wire, at most 40 characters.</param>
    public void TellUnknown(string kindAndFields)
    {
        if (Power != PowerState.On)
        {
            return;
        }

        Truth.Happened(Serial, new InstrumentEvent { Tick = Tick }, kindAndFields);
        Step(new InstrumentLinkInput.HappenedVerbatim(kindAndFields, lineNow, Tick));
        NoteOverflow();
    }

    private void Execute(InstrumentLinkOutput.Execute asked)
    {
        var (answer, reason) = asked.Command.Kind switch
        {
            InstrumentCommandKind.Off => (CommandAnswer.Ok, ""),
            InstrumentCommandKind.Train => SetTrain(asked.Command),
            _ => (CommandAnswer.Unknown, ""),
        };
        Step(new InstrumentLinkInput.CarriedOut(asked.Host, asked.Number, answer, reason, lineNow, Tick));
        if (asked.Command.Kind == InstrumentCommandKind.Off)
        {
            SwitchOff();
        }
    }

    private (CommandAnswer Answer, string Reason) SetTrain(InstrumentCommand command)
    {
        if (body.Mode != InstrumentMode.Idle)
        {
            return (CommandAnswer.Refused, "turn the dial to idle first");
        }

        if (command.Block is Block.None or Block.Near)
        {
            return (CommandAnswer.Refused, "this block has no lamp");
        }

        var dwell = TimeSpan.FromMilliseconds(command.DwellMilliseconds);
        var gap = TimeSpan.FromMilliseconds(command.GapMilliseconds);
        body.SetTrain(command.Block, new StimulusTrain(command.Stimuli, dwell, gap));
        return (CommandAnswer.Ok, "");
    }
}
