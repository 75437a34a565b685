using System.Runtime.InteropServices;

namespace PupilBridge.Instrument;

/// <summary>The type of a line that an instrument sends.</summary>
public enum InstrumentLineKind : byte
{
    /// <summary>A type that this version does not know: ignored and counted.</summary>
    Unknown = 0,

    /// <summary>The head of an identity (<c>ID</c>).</summary>
    Identity = 1,

    /// <summary>One stop of the dial (<c>STOP</c>).</summary>
    Stop = 2,

    /// <summary>One scale (<c>SCALE</c>).</summary>
    Scale = 3,

    /// <summary>An event (<c>EV</c>).</summary>
    Event = 4,

    /// <summary>A live position (<c>POS</c>).</summary>
    Position = 5,

    /// <summary>The heartbeat (<c>BEAT</c>).</summary>
    Beat = 6,

    /// <summary>The reply to a command (<c>DONE</c>).</summary>
    Reply = 7,

    /// <summary>Another host holds the instrument (<c>HELD</c>).</summary>
    Held = 8,

    /// <summary>There is no common protocol version (<c>NOVERSION</c>).</summary>
    NoVersion = 9,
}

/// <summary>The fields of an <c>ID</c> line.</summary>
/// <param name="Version">The protocol version in use, 1 to 99.</param>
/// <param name="Serial">The serial number, 1 to 16 characters as <see cref="SerialNumber"/> has them.</param>
/// <param name="Model">1 to 16 characters.</param>
/// <param name="Firmware">1 to 10 characters.</param>
/// <param name="Boot">The present boot.</param>
/// <param name="Abilities">The abilities that this version knows.</param>
/// <param name="StopCount">How many <c>STOP</c> lines follow, 1 to 32.</param>
/// <param name="Acknowledged">The highest number acknowledged in this boot; 0 for none.</param>
/// <param name="AcknowledgedBy">The host that acknowledged it; the default if none did.</param>
public readonly record struct IdentityHead(
    byte Version,
    AsciiText Serial,
    AsciiText Model,
    AsciiText Firmware,
    BootNumber Boot,
    InstrumentAbilities Abilities,
    byte StopCount,
    long Acknowledged,
    HostId AcknowledgedBy
);

/// <summary>The fields of a <c>SCALE</c> line.</summary>
/// <param name="Eye">The eye whose scale it is.</param>
/// <param name="Scale">Its description.</param>
public readonly record struct EyeScale(Eye Eye, ScaleDescription Scale);

/// <summary>The fields of a <c>HELD</c> line.</summary>
/// <param name="Holder">The host that holds the instrument.</param>
/// <param name="SecondsSinceHeard">Whole seconds since its last line, 0 to 999,999.</param>
public readonly record struct HeldByOther(HostId Holder, int SecondsSinceHeard);

/// <summary>The fields of a <c>NOVERSION</c> line.</summary>
/// <param name="Lowest">The lowest protocol version that the instrument speaks.</param>
/// <param name="Highest">The highest one.</param>
public readonly record struct VersionRange(byte Lowest, byte Highest);

/// <summary>
/// One line of an instrument, decoded. The members lie over each other so that it stays small: read only the one that
/// <see cref="Kind"/> names (every other throws). The default value is a line of unknown type.
/// </summary>
[StructLayout(LayoutKind.Explicit)]
public readonly struct InstrumentLine
{
    [FieldOffset(0)]
    private readonly InstrumentLineKind kind;

    // The CRC of the line as received: the fingerprint by which a repetition is told from a conflict.
    [FieldOffset(4)]
    private readonly uint crc;

    [FieldOffset(8)]
    private readonly InstrumentEvent happened;

    [FieldOffset(8)]
    private readonly IdentityHead identity;

    [FieldOffset(8)]
    private readonly DialStop stop;

    [FieldOffset(8)]
    private readonly EyeScale scale;

    [FieldOffset(8)]
    private readonly LivePosition position;

    [FieldOffset(8)]
    private readonly Heartbeat beat;

    [FieldOffset(8)]
    private readonly CommandReply reply;

    [FieldOffset(8)]
    private readonly HeldByOther held;

    [FieldOffset(8)]
    private readonly VersionRange versions;

    /// <summary>An event line.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(in InstrumentEvent value, uint crc = 0) =>
        (kind, this.crc, happened) = (InstrumentLineKind.Event, crc, value);

    /// <summary>The head of an identity.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(in IdentityHead value, uint crc = 0) =>
        (kind, this.crc, identity) = (InstrumentLineKind.Identity, crc, value);

    /// <summary>A stop of the dial.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(DialStop value, uint crc = 0) =>
        (kind, this.crc, stop) = (InstrumentLineKind.Stop, crc, value);

    /// <summary>A scale.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(EyeScale value, uint crc = 0) =>
        (kind, this.crc, scale) = (InstrumentLineKind.Scale, crc, value);

    /// <summary>A live position.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(LivePosition value, uint crc = 0) =>
        (kind, this.crc, position) = (InstrumentLineKind.Position, crc, value);

    /// <summary>A heartbeat.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(Heartbeat value, uint crc = 0) =>
        (kind, this.crc, beat) = (InstrumentLineKind.Beat, crc, value);

    /// <summary>A reply.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(CommandReply value, uint crc = 0) =>
        (kind, this.crc, reply) = (InstrumentLineKind.Reply, crc, value);

    /// <summary>The refusal of a second host.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(HeldByOther value, uint crc = 0) =>
        (kind, this.crc, held) = (InstrumentLineKind.Held, crc, value);

    /// <summary>The statement that there is no common version.</summary>
    /// <param name="value">Its content.</param>
    /// <param name="crc">The CRC as received, or 0.</param>
    public InstrumentLine(VersionRange value, uint crc = 0) =>
        (kind, this.crc, versions) = (InstrumentLineKind.NoVersion, crc, value);

    /// <summary>The type of the line.</summary>
    public InstrumentLineKind Kind => kind;

    /// <summary>The CRC as received; 0 for a line made here.</summary>
    public uint Crc => crc;

    /// <summary>The event.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public InstrumentEvent Event => kind == InstrumentLineKind.Event ? happened : throw Other();

    /// <summary>The head of an identity.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public IdentityHead Identity => kind == InstrumentLineKind.Identity ? identity : throw Other();

    /// <summary>The stop of the dial.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public DialStop Stop => kind == InstrumentLineKind.Stop ? stop : throw Other();

    /// <summary>The scale.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public EyeScale Scale => kind == InstrumentLineKind.Scale ? scale : throw Other();

    /// <summary>The live position.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public LivePosition Position => kind == InstrumentLineKind.Position ? position : throw Other();

    /// <summary>The heartbeat.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public Heartbeat Beat => kind == InstrumentLineKind.Beat ? beat : throw Other();

    /// <summary>The reply.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public CommandReply Reply => kind == InstrumentLineKind.Reply ? reply : throw Other();

    /// <summary>Who holds the instrument.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public HeldByOther Held => kind == InstrumentLineKind.Held ? held : throw Other();

    /// <summary>The versions that the instrument speaks.</summary>
    /// <exception cref="InvalidOperationException">It is a line of another type.</exception>
    public VersionRange Versions => kind == InstrumentLineKind.NoVersion ? versions : throw Other();

    private InvalidOperationException Other() => new($"This line is of the type {kind}; read that member only.");
}
