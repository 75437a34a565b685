using System.Collections.Immutable;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <summary>
/// The host's side of a link as a pure transition: a state and something that happened give a new state and what to do.
/// </summary>
/// <remarks>
/// The promise: each event of a boot is handed over exactly once and in order, or stands in an explicit loss; and no number
/// is acknowledged that was not declared durable. It takes events go-back-N: only the next number in order is accepted,
/// whatever comes before its turn is dropped and asked for again. That costs bytes on a bad line, and in return there is no
/// buffer to bound, no reordering to get wrong, and the journal is in order by construction.
/// </remarks>
public static partial class HostLink
{
    /// <summary>One step.</summary>
    /// <param name="state">The state before.</param>
    /// <param name="input">What happened.</param>
    /// <returns>The state after, and what to do.</returns>
    public static HostLinkStep Step(HostLinkState state, HostLinkInput input)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(input);
        var turn = new Turn(state with { Now = input.At > state.Now ? input.At : state.Now });
        switch (input)
        {
            case HostLinkInput.Opened:
                OnOpened(turn);
                break;
            case HostLinkInput.Closed closed:
                OnClosed(turn, closed.Reason);
                break;
            case HostLinkInput.LineArrived arrived:
                OnLine(turn, arrived);
                break;
            case HostLinkInput.LineFaulty faulty:
                OnFaulty(turn, faulty.Fault);
                break;
            case HostLinkInput.PositionKnown known:
                OnPositionKnown(turn, known);
                break;
            case HostLinkInput.MadeDurable durable:
                OnDurable(turn, durable);
                break;
            case HostLinkInput.WritingFailed:
                OnWritingFailed(turn);
                break;
            case HostLinkInput.Wish wish:
                OnWish(turn, wish);
                break;
            case HostLinkInput.TakeOverWished:
                OnTakeOver(turn);
                break;
            default:
                break;
        }

        OnTime(turn);
        return turn.End();
    }

    private static void OnOpened(Turn turn)
    {
        turn.State = turn.State with
        {
            Phase = HostLinkPhase.Greeting,
            Identity = null,
            Draft = null,
            LastGoodLineAt = turn.Now,
            EverGood = false,
            FaultySinceGood = 0,
            LastAckAt = null,
            LastResendAt = null,
            ResendWanted = false,
        };
        Greet(turn, HostLinkPhase.Greeting);
    }

    private static void OnClosed(Turn turn, string reason)
    {
        turn.State = turn.State with { Phase = HostLinkPhase.Closed, Draft = null, Taking = false };
        EndCommands(turn, reason);
    }

    private static void OnFaulty(Turn turn, LineFault fault)
    {
        var state = turn.State;
        // Opening cuts into a line that is on its way: the first piece is no sign of a bad line.
        var cutByOpening = !state.EverGood && state.FaultySinceGood == 0;
        var counters = state.Counters;
        turn.State = state with
        {
            FaultySinceGood = state.FaultySinceGood + 1,
            Counters = fault.Kind switch
            {
                LineFaultKind.TooLong => counters with { TooLong = counters.TooLong + 1 },
                LineFaultKind.ForbiddenByte or LineFaultKind.BadField => counters with
                {
                    Unreadable = counters.Unreadable + 1,
                },
                _ when cutByOpening => counters,
                _ => counters with { BadCheck = counters.BadCheck + 1 },
            },
        };
    }

    private static void OnLine(Turn turn, HostLinkInput.LineArrived arrived)
    {
        if (turn.State.Phase is HostLinkPhase.Closed or HostLinkPhase.Ended)
            return;
        turn.State = turn.State with { LastGoodLineAt = turn.Now, EverGood = true, FaultySinceGood = 0 };
        var line = arrived.Line;
        switch (line.Kind)
        {
            case InstrumentLineKind.Event:
                OnEvent(turn, line.Event, line.Crc, arrived.Raw);
                break;
            case InstrumentLineKind.Beat:
                OnBeat(turn, line.Beat);
                break;
            case InstrumentLineKind.Position:
                if (turn.State.Phase == HostLinkPhase.Connected)
                    turn.Do(new HostLinkOutput.PositionSeen(line.Position, turn.Now));
                break;
            case InstrumentLineKind.Identity or InstrumentLineKind.Stop or InstrumentLineKind.Scale:
                OnIdentityLine(turn, line, arrived.Raw);
                break;
            case InstrumentLineKind.Reply:
                OnReply(turn, line.Reply);
                break;
            case InstrumentLineKind.Held:
                OnHeld(turn, line.Held);
                break;
            case InstrumentLineKind.NoVersion:
                OnNoVersion(turn, line.Versions.Lowest, line.Versions.Highest);
                break;
            default:
                turn.Count(c => c with { UnknownTypes = c.UnknownTypes + 1 });
                break;
        }
    }

    /// <summary>The work of one step: the state as it grows, and the outputs so far. It never leaves the step.</summary>
    private sealed class Turn(HostLinkState state)
    {
        private readonly ImmutableArray<HostLinkOutput>.Builder outputs =
            ImmutableArray.CreateBuilder<HostLinkOutput>();

        internal HostLinkState State { get; set; } = state;

        internal TimeSpan Now => State.Now;

        internal void Do(HostLinkOutput output) => outputs.Add(output);

        internal void Say(HostLine line) => Do(new HostLinkOutput.Send(line));

        internal void Count(Func<HostLinkCounters, HostLinkCounters> count) =>
            State = State with { Counters = count(State.Counters) };

        internal HostLinkStep End() => new(State, outputs.ToImmutable());
    }
}
