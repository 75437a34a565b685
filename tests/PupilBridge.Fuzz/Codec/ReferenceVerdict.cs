namespace PupilBridge.Fuzz.Codec;

/// <summary>What the reference makes of a line.</summary>
internal enum ReferenceKind
{
    /// <summary>Longer than 119 bytes.</summary>
    TooLong,

    /// <summary>No star and eight digits at its end, or nothing before them.</summary>
    NoCheck,

    /// <summary>The digits are not those of its bytes.</summary>
    BadCheck,

    /// <summary>A byte that no line may hold.</summary>
    ForbiddenByte,

    /// <summary>A field is missing, malformed or out of range.</summary>
    BadField,

    /// <summary>A line of this version.</summary>
    Known,

    /// <summary>A type that this version does not know.</summary>
    UnknownType,

    /// <summary>An event of a kind that this version does not know; boot, sequence and tick can be read.</summary>
    UnknownEvent,

    /// <summary>An event of a known kind whose fields cannot be read; boot, sequence and tick can.</summary>
    UnreadableEvent,

    /// <summary>A command that this version does not know, or with fields that cannot be read; host and number can.</summary>
    UnknownCommand,
}

/// <summary>What the reference makes of a line.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Fields">How many fields after the type are known; what follows them is passed over.</param>
internal readonly record struct ReferenceVerdict(ReferenceKind Kind, int Fields)
{
    /// <summary>Whether a receiver takes it as well formed.</summary>
    public bool IsTaken => Kind >= ReferenceKind.Known;
}
