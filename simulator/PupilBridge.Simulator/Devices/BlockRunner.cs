using System.Collections.Immutable;
using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>Follows the dial: runs blocks one after the other in <c>sequence</c>, one without end in <c>hold</c>.</summary>
internal sealed class BlockRunner
{
    /// <summary>A stop at which the dial stays for less than this was merely passed; our choice.</summary>
    public static readonly TimeSpan PassingTime = TimeSpan.FromMilliseconds(500);

    /// <summary>From settling on a block to its first stimulus, and from one block to the next; our choice.</summary>
    public static readonly TimeSpan LeadIn = TimeSpan.FromSeconds(1.5);

    /// <summary>How long the sequence stays in the near block.</summary>
    public static readonly TimeSpan NearTime = TimeSpan.FromSeconds(12);

    private readonly InstrumentModel model;
    private readonly SequenceOrder order;
    private ImmutableDictionary<Block, StimulusTrain> trains;
    private LampTrain? train;
    private Tick settledAt;
    private Tick nearUntil;
    private bool isSettled;

    public BlockRunner(InstrumentModel model)
    {
        this.model = model;
        order = new SequenceOrder(model.Sequence);
        trains = model.Trains;
    }

    public InstrumentMode Mode { get; private set; } = InstrumentMode.Idle;

    public Block Block { get; private set; }

    /// <summary>The eye lit now, or null.</summary>
    public Eye? Lit => train?.Lit;

    /// <summary>The tick at which its lamp went on, or null.</summary>
    public Tick? LitSince => train?.LitSince;

    /// <summary>Whether the block that runs has reached its count at least once.</summary>
    public bool ReachedCount => Block == Block.Near || (train?.ReachedCount ?? false);

    /// <summary>Whether the sequence has nothing more to run.</summary>
    public bool IsThrough => Mode == InstrumentMode.Sequence && order.Next == Block.None;

    /// <summary>The tick before which it does nothing of itself; null while it waits for the dial.</summary>
    public Tick? NextDue
    {
        get
        {
            if (!isSettled)
            {
                return new Tick(settledAt.Milliseconds + (long)PassingTime.TotalMilliseconds);
            }

            return Block == Block.Near && Mode == InstrumentMode.Sequence ? nearUntil : train?.NextDue;
        }
    }

    public void SetTrain(Block block, StimulusTrain value) => trains = trains.SetItem(block, value);

    /// <summary>The dial came to a stop, or passes it.</summary>
    public void DialAt(DialStop stop, Tick now, IBodyListener listener)
    {
        Leave(now, listener);
        Mode = stop.Mode;
        Block = stop.Mode == InstrumentMode.Sequence ? order.Next : stop.Block;
        settledAt = now;
        listener.Happened(InstrumentEvent.ModeChanged(now, Mode, Block, ModeCause.Dial));
    }

    public void Advance(Tick now, IBodyListener listener)
    {
        if (!isSettled)
        {
            if (now - settledAt >= PassingTime)
            {
                isSettled = true;
                Begin(new Tick(settledAt.Milliseconds + (long)LeadIn.TotalMilliseconds));
            }

            return;
        }

        train?.Advance(now, model.LampPercent, listener);
        var isOver = Block == Block.Near ? now >= nearUntil : train is { IsOver: true };
        if (Mode == InstrumentMode.Sequence && Block != Block.None && isOver)
        {
            GoOn(now, listener);
        }
    }

    /// <summary>Switches the lamps off and forgets everything: the instrument goes off.</summary>
    public void Stop(Tick now, IBodyListener listener) => train?.Stop(now, listener);

    private void Begin(Tick firstOn)
    {
        if (Mode is InstrumentMode.Idle or InstrumentMode.Measure)
        {
            order.StartOver();
        }

        nearUntil = new Tick(firstOn.Milliseconds + (long)NearTime.TotalMilliseconds);
        train = trains.TryGetValue(Block, out var numbers)
            ? new LampTrain(Block, numbers, firstOn, isEndless: Mode == InstrumentMode.Hold)
            : null;
    }

    private void GoOn(Tick now, IBodyListener listener)
    {
        order.Ran(Block, reachedCount: true);
        train = null;
        if (order.Next == Block.None)
        {
            Block = Block.None;
            return;
        }

        Block = order.Next;
        listener.Happened(InstrumentEvent.ModeChanged(now, Mode, Block, ModeCause.Self));
        Begin(new Tick(now.Milliseconds + (long)LeadIn.TotalMilliseconds));
    }

    private void Leave(Tick now, IBodyListener listener)
    {
        train?.Stop(now, listener);
        if (isSettled && Mode == InstrumentMode.Hold)
        {
            order.Held(Block, ReachedCount);
        }
        else if (isSettled && Mode == InstrumentMode.Sequence && Block != Block.None)
        {
            order.Ran(Block, reachedCount: false);
        }

        train = null;
        isSettled = false;
    }
}
