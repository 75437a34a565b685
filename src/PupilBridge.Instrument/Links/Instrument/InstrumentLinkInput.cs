namespace PupilBridge.Instrument.Links;

/// <summary>Something that happens to the instrument's side of a link.</summary>
/// <param name="At">When, by a monotonic clock; only differences count.</param>
/// <param name="Now">The instrument's tick at that moment; it may run faster or slower than <paramref name="At"/>.</param>
public abstract record InstrumentLinkInput(TimeSpan At, Tick Now)
{
    /// <summary>The instrument was switched on: memory is empty and no host is known.</summary>
    /// <param name="Boot">The boot number that it drew.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record SwitchedOn(BootNumber Boot, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>The current was cut: nothing is said and nothing heard until it is switched on.</summary>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record PowerCut(TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>Something happened that is to be told.</summary>
    /// <param name="Event">What; boot and sequence are given by the link, the tick is the event's own.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record Happened(InstrumentEvent Event, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>Something happened of a kind that this version does not know, as from a newer instrument.</summary>
    /// <param name="KindAndFields">Kind and fields as on the line, such as <c>NEWKIND,1,2</c>; at most 40 characters.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick, of the event too.</param>
    public sealed record HappenedVerbatim(string KindAndFields, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>A scale moves.</summary>
    /// <param name="Eye">Of which eye.</param>
    /// <param name="Position">Where it is now.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record Moved(Eye Eye, Micrometres Position, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>A well-formed line of a host arrived. (Faulty ones are dropped without a trace.)</summary>
    /// <param name="Line">The line.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record HostLineArrived(HostLine Line, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>A command that <see cref="InstrumentLinkOutput.Execute"/> asked for is decided.</summary>
    /// <param name="Host">The host that asked.</param>
    /// <param name="Number">The command's number.</param>
    /// <param name="Answer">How it went.</param>
    /// <param name="Reason">Why; may be empty; at most 40 characters.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record CarriedOut(
        HostId Host,
        uint Number,
        CommandAnswer Answer,
        string Reason,
        TimeSpan At,
        Tick Now
    ) : InstrumentLinkInput(At, Now);

    /// <summary>The battery's charge changed.</summary>
    /// <param name="Percent">0 to 100.</param>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record BatteryIs(byte Percent, TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>The cable is out, or the other side closed, where the instrument can tell.</summary>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record LinkLost(TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>The cable is back, or the other side opened.</summary>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record LinkBack(TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);

    /// <summary>Time passed; to be given at <see cref="InstrumentLinkState.NextDue"/> at the latest.</summary>
    /// <param name="At">When.</param>
    /// <param name="Now">The tick.</param>
    public sealed record TimePassed(TimeSpan At, Tick Now) : InstrumentLinkInput(At, Now);
}

/// <summary>What the instrument's side of a link wants done.</summary>
public abstract record InstrumentLinkOutput
{
    private InstrumentLinkOutput() { }

    /// <summary>Send one line.</summary>
    /// <param name="Bytes">Its bytes, LF included.</param>
    public sealed record Send(ReadOnlyMemory<byte> Bytes) : InstrumentLinkOutput;

    /// <summary>Carry out a command, and answer with <see cref="InstrumentLinkInput.CarriedOut"/>.</summary>
    /// <param name="Host">The host that asks.</param>
    /// <param name="Number">The command's number.</param>
    /// <param name="Command">What is asked.</param>
    public sealed record Execute(HostId Host, uint Number, InstrumentCommand Command) : InstrumentLinkOutput;
}
