using System.Collections.Immutable;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <summary>
/// The instrument's side of a link as a pure transition: what firmware has to do, and what the simulator does. It keeps each
/// event until a host says that it is on disk, sends in order from a cursor that acknowledgements push forward and requests
/// pull back, and says so when its memory lost something.
/// </summary>
public static partial class InstrumentLink
{
    /// <summary>One step.</summary>
    /// <param name="state">The state before.</param>
    /// <param name="input">What happened.</param>
    /// <returns>The state after, and what to do.</returns>
    /// <exception cref="ArgumentException">An event has a value for which the protocol has no place.</exception>
    public static InstrumentLinkStep Step(InstrumentLinkState state, InstrumentLinkInput input)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(input);
        var turn = new Turn(state with { At = input.At > state.At ? input.At : state.At, Now = input.Now });
        if (input is InstrumentLinkInput.SwitchedOn on)
            OnSwitchedOn(turn, on.Boot);
        else if (turn.State.IsOn || HoldsWhileOff(input))
            OnInput(turn, input);
        if (turn.State.IsOn)
            OnTime(turn);
        return turn.End();
    }

    /// <summary>A cable is put in and pulled out while the current is off, too, and a battery has a charge then.</summary>
    private static bool HoldsWhileOff(InstrumentLinkInput input) =>
        input is InstrumentLinkInput.LinkLost or InstrumentLinkInput.LinkBack or InstrumentLinkInput.BatteryIs;

    private static void OnInput(Turn turn, InstrumentLinkInput input)
    {
        switch (input)
        {
            case InstrumentLinkInput.PowerCut:
                turn.State = turn.State with { IsOn = false };
                break;
            case InstrumentLinkInput.Happened happened:
                OnHappened(turn, happened.Event);
                break;
            case InstrumentLinkInput.HappenedVerbatim verbatim:
                OnHappenedVerbatim(turn, verbatim);
                break;
            case InstrumentLinkInput.Moved moved:
                OnMoved(turn, moved.Eye, moved.Position);
                break;
            case InstrumentLinkInput.HostLineArrived arrived:
                OnHostLine(turn, arrived.Line);
                break;
            case InstrumentLinkInput.CarriedOut done:
                OnCarriedOut(turn, new(done.Host, done.Number, done.Answer, AsciiText.From(done.Reason)));
                break;
            case InstrumentLinkInput.BatteryIs battery:
                turn.State = turn.State with { BatteryPercent = battery.Percent };
                break;
            case InstrumentLinkInput.LinkLost:
                turn.State = turn.State with { LinkUp = false, Listening = false };
                break;
            case InstrumentLinkInput.LinkBack:
                turn.State = turn.State with { LinkUp = true, NextBeatAt = turn.At, LineBusyUntil = turn.At };
                break;
            default:
                break;
        }
    }

    // The link of the line survives a reboot; everything else is gone.
    private static void OnSwitchedOn(Turn turn, BootNumber boot) =>
        turn.State = InstrumentLinkState.New(turn.State.Setup) with
        {
            IsOn = true,
            Boot = boot,
            At = turn.At,
            Now = turn.State.Now,
            LinkUp = turn.State.LinkUp,
            NextBeatAt = turn.At,
            BatteryPercent = turn.State.BatteryPercent,
        };

    /// <summary>The work of one step: the state as it grows, and the outputs so far. It never leaves the step.</summary>
    private sealed class Turn(InstrumentLinkState state)
    {
        private readonly ImmutableArray<InstrumentLinkOutput>.Builder outputs =
            ImmutableArray.CreateBuilder<InstrumentLinkOutput>();

        internal InstrumentLinkState State { get; set; } = state;

        internal TimeSpan At => State.At;

        internal void Do(InstrumentLinkOutput output) => outputs.Add(output);

        internal void Say(in InstrumentLine line) => Say(Encoded(line));

        internal void Say(ReadOnlyMemory<byte> bytes)
        {
            if (!State.LinkUp)
                return;
            Do(new InstrumentLinkOutput.Send(bytes));
            if (State.Setup.BytesPerSecond is not { } rate)
                return;
            var from = State.LineBusyUntil > At ? State.LineBusyUntil : At;
            State = State with { LineBusyUntil = from + TimeSpan.FromSeconds((double)bytes.Length / rate) };
        }

        internal InstrumentLinkStep End() => new(State, outputs.ToImmutable());
    }

    private static byte[] Encoded(in InstrumentLine line)
    {
        Span<byte> buffer = stackalloc byte[WireLimits.MaxLineBytes];
        return buffer[..InstrumentLineEncoder.Encode(line, buffer)].ToArray();
    }
}
