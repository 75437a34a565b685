namespace PupilBridge.Simulator.Faults;

/// <summary>
/// One thing that can go wrong, from a seed, counted each time it really happened: a fault that never hit proves nothing.
/// </summary>
public abstract class Fault
{
    /// <summary>Names the fault.</summary>
    /// <param name="name">Its name in the catalogue.</param>
    protected Fault(string name) => Name = name;

    /// <summary>Its name in the catalogue.</summary>
    public string Name { get; }

    /// <summary>How often it really happened.</summary>
    public long Fired { get; private set; }

    /// <summary>Whether it may happen. Switched off, it lets everything pass and undoes what it holds.</summary>
    public bool IsActive { get; set; } = true;

    /// <summary>Counts one time that it happened.</summary>
    protected void CountFired() => Fired++;
}

/// <summary>Takes one piece of a byte stream; pieces are what a reader gets from one read.</summary>
/// <param name="piece">The bytes; not to be kept after the call.</param>
public delegate void PieceSink(ReadOnlySpan<byte> piece);

/// <summary>A fault of the line: a transform of the byte stream of one direction. Order is kept unless it says otherwise.</summary>
/// <remarks>It has no clock and no port of its own, so that the same transform works in memory and over a port.</remarks>
public abstract class ByteFault : Fault
{
    /// <summary>Names the fault.</summary>
    /// <param name="name">Its name in the catalogue.</param>
    protected ByteFault(string name)
        : base(name) { }

    /// <summary>Takes what arrives and hands on what leaves now.</summary>
    /// <param name="arriving">The bytes that arrive; may be none, when only time has passed.</param>
    /// <param name="now">The time, never less than at the call before.</param>
    /// <param name="leaving">Takes what leaves, in pieces.</param>
    public void Pass(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        if (IsActive)
        {
            Spoil(arriving, now, leaving);
            return;
        }

        Release(leaving);
        if (!arriving.IsEmpty)
        {
            leaving(arriving);
        }
    }

    /// <summary>What the fault does to the stream.</summary>
    /// <param name="arriving">The bytes that arrive.</param>
    /// <param name="now">The time.</param>
    /// <param name="leaving">Takes what leaves.</param>
    protected abstract void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving);

    /// <summary>Hands on what it still holds; called when it was switched off.</summary>
    /// <param name="leaving">Takes what leaves.</param>
    protected virtual void Release(PieceSink leaving) { }
}
