namespace PupilBridge.Instrument.Wire;

/// <summary>What is wrong with a line.</summary>
public enum LineFaultKind : byte
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>It has no star with eight upper-case hexadecimal digits at its end.</summary>
    NoCheck = 1,

    /// <summary>Its bytes do not give the CRC that it carries.</summary>
    BadCheck = 2,

    /// <summary>It is longer than 119 bytes without its end.</summary>
    TooLong = 3,

    /// <summary>Its CRC is right, but it holds a byte that no line may hold.</summary>
    ForbiddenByte = 4,

    /// <summary>Its CRC is right, but a field is missing, malformed or out of range.</summary>
    BadField = 5,
}

/// <summary>What is wrong with a line, and where. The default is no fault.</summary>
/// <param name="Kind">What is wrong.</param>
/// <param name="Field">For <see cref="LineFaultKind.BadField"/>, the field's place, counted from 1 after the type.</param>
public readonly record struct LineFault(LineFaultKind Kind, int Field)
{
    /// <summary>A sentence for a person.</summary>
    /// <returns>What is wrong with the line.</returns>
    public string Describe() =>
        Kind switch
        {
            LineFaultKind.None => "The line is well formed.",
            LineFaultKind.NoCheck =>
                "The line does not end in '*' and eight hexadecimal digits; it was cut or is not of this protocol.",
            LineFaultKind.BadCheck =>
                "The line's checksum is wrong: bytes were changed on the way. Check the cable and the baud rate.",
            LineFaultKind.TooLong =>
                "No line end within 120 bytes: this is not the protocol, or the baud rate is wrong.",
            LineFaultKind.ForbiddenByte =>
                "The line's checksum is right, but it holds a byte outside printable ASCII. Report it to the firmware's maker.",
            _ =>
                $"The line's checksum is right, but its field {Field} cannot be read. Report it to the firmware's maker.",
        };
}
