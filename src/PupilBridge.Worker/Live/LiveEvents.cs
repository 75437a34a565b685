using PupilBridge.Instrument;

namespace PupilBridge.Worker.Live;

/// <summary>What a line of an instrument changes of its live state.</summary>
internal static class LiveEvents
{
    /// <summary>The state after an event was received, whether or not it is on disk.</summary>
    /// <param name="before">The state before.</param>
    /// <param name="event">The event.</param>
    /// <param name="about">When it happened, by estimate, in UTC.</param>
    public static LiveInstrument After(this LiveInstrument before, in InstrumentEvent @event, DateTimeOffset about)
    {
        var state = before with { Received = Math.Max(before.Received, @event.Sequence) };
        return @event.Kind switch
        {
            InstrumentEventKind.ModeChanged => state with
            {
                Mode = new LiveMode(@event.Mode, @event.Block, @event.Cause, about),
            },
            InstrumentEventKind.EdgeMarked or InstrumentEventKind.ScaleAtRest => state with
            {
                Scales = state.Scales.With(@event.Eye, new LiveScale(@event.Position, IsMoving: false, about)),
            },
            InstrumentEventKind.LampSwitched => state with
            {
                Lamps = state.Lamps.With(@event.Eye, Switched(state.Lamps[@event.Eye], @event, about)),
            },
            InstrumentEventKind.RoomLight => state with { Room = new LiveRoom(@event.Room, @event.RoomMillilux) },
            InstrumentEventKind.FixationChanged => state with { Fixation = @event.Fixation },
            InstrumentEventKind.LensMoved => state with { LensIn = @event.LensIn },
            InstrumentEventKind.FaultReported => state with
            {
                Fault = $"{@event.FaultCode} {@event.FaultText}".TrimEnd(),
            },
            _ => state,
        };
    }

    /// <summary>The state after a live position.</summary>
    public static LiveInstrument After(this LiveInstrument before, LivePosition position, DateTimeOffset now) =>
        before with
        {
            Scales = before.Scales.With(position.Eye, new LiveScale(position.Position, IsMoving: true, now)),
        };

    private static LiveLamp Switched(LiveLamp before, in InstrumentEvent @event, DateTimeOffset about)
    {
        var dwell = before.IsOn && !@event.LampOn ? @event.Tick - before.SinceTick : before.LastDwell;
        return new LiveLamp(@event.LampOn, @event.LampLevelPercent, @event.Tick, about, dwell);
    }
}
