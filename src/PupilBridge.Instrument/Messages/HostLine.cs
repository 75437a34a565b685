namespace PupilBridge.Instrument;

/// <summary>The type of a line that a host sends.</summary>
public enum HostLineKind : byte
{
    /// <summary>A type that this version does not know: ignored and counted.</summary>
    Unknown = 0,

    /// <summary>Who are you? (<c>WHO</c>)</summary>
    Who = 1,

    /// <summary>Like who, and granted even if another host holds the instrument (<c>TAKE</c>).</summary>
    Take = 2,

    /// <summary>All events of a boot up to a number are on disk (<c>ACK</c>).</summary>
    Ack = 3,

    /// <summary>Send again from a number (<c>RESEND</c>).</summary>
    Resend = 4,

    /// <summary>A command (<c>CMD</c>).</summary>
    Command = 5,
}

/// <summary>One line of a host. Beside kind and host only the members of its kind carry a value.</summary>
public readonly record struct HostLine
{
    /// <summary>Its type.</summary>
    public HostLineKind Kind { get; init; }

    /// <summary>The host that speaks.</summary>
    public HostId Host { get; init; }

    /// <summary>Who and take: the lowest protocol version that the host speaks, 1 to 99.</summary>
    public int LowestVersion { get; init; }

    /// <summary>Who and take: the highest protocol version that the host speaks, 1 to 99.</summary>
    public int HighestVersion { get; init; }

    /// <summary>Acknowledge and resend: the boot that is meant.</summary>
    public BootNumber Boot { get; init; }

    /// <summary>Acknowledge: the last number on disk, 0 for none. Resend: the first number wanted.</summary>
    public long Sequence { get; init; }

    /// <summary>Command: its number, 1 to 2^32 − 1.</summary>
    public uint CommandNumber { get; init; }

    /// <summary>Command: what is asked.</summary>
    public InstrumentCommand Command { get; init; }

    /// <summary>Who are you?</summary>
    /// <param name="host">The host that speaks.</param>
    /// <param name="lowestVersion">The lowest protocol version it speaks.</param>
    /// <param name="highestVersion">The highest one.</param>
    /// <returns>The line.</returns>
    public static HostLine Who(HostId host, int lowestVersion, int highestVersion) =>
        new()
        {
            Kind = HostLineKind.Who,
            Host = host,
            LowestVersion = lowestVersion,
            HighestVersion = highestVersion,
        };

    /// <summary>I take this instrument over.</summary>
    /// <param name="host">The host that speaks.</param>
    /// <param name="lowestVersion">The lowest protocol version it speaks.</param>
    /// <param name="highestVersion">The highest one.</param>
    /// <returns>The line.</returns>
    public static HostLine Take(HostId host, int lowestVersion, int highestVersion) =>
        Who(host, lowestVersion, highestVersion) with
        {
            Kind = HostLineKind.Take,
        };

    /// <summary>Everything of a boot up to a number is on disk.</summary>
    /// <param name="host">The host that speaks.</param>
    /// <param name="boot">The boot.</param>
    /// <param name="sequence">The last number on disk; 0 for none.</param>
    /// <returns>The line.</returns>
    public static HostLine Ack(HostId host, BootNumber boot, long sequence) =>
        new()
        {
            Kind = HostLineKind.Ack,
            Host = host,
            Boot = boot,
            Sequence = sequence,
        };

    /// <summary>Send again from a number.</summary>
    /// <param name="host">The host that speaks.</param>
    /// <param name="boot">The boot.</param>
    /// <param name="sequence">The first number wanted.</param>
    /// <returns>The line.</returns>
    public static HostLine Resend(HostId host, BootNumber boot, long sequence) =>
        Ack(host, boot, sequence) with
        {
            Kind = HostLineKind.Resend,
        };

    /// <summary>A command.</summary>
    /// <param name="host">The host that speaks.</param>
    /// <param name="number">A number that this host has not used in this boot before.</param>
    /// <param name="command">What is asked.</param>
    /// <returns>The line.</returns>
    public static HostLine Ask(HostId host, uint number, InstrumentCommand command) =>
        new()
        {
            Kind = HostLineKind.Command,
            Host = host,
            CommandNumber = number,
            Command = command,
        };
}
