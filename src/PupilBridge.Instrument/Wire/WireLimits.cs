namespace PupilBridge.Instrument.Wire;

/// <summary>The limits of the line protocol. docs/protocol.md gives the reason for each number.</summary>
public static class WireLimits
{
    /// <summary>The lowest protocol version that this code speaks.</summary>
    public const int LowestVersion = 1;

    /// <summary>The highest protocol version that this code speaks.</summary>
    public const int HighestVersion = 1;

    /// <summary>The highest number that a version can have.</summary>
    public const int VersionCeiling = 99;

    /// <summary>The most bytes of a line, its LF included.</summary>
    public const int MaxLineBytes = 120;

    /// <summary>The most bytes of a line without its LF.</summary>
    public const int MaxContentBytes = MaxLineBytes - 1;

    /// <summary>The bytes that end each line's content: a star and eight hexadecimal digits.</summary>
    public const int CheckBytes = 9;

    /// <summary>The highest event number, 2^53: exact in every arithmetic that readers of a journal may use.</summary>
    public const long MaxSequence = 1L << 53;

    /// <summary>The highest position, 99,999 µm.</summary>
    public const int MaxPositionMicrometres = 99_999;

    /// <summary>The coarsest resolution, 1,000 µm.</summary>
    public const int MaxResolutionMicrometres = 1_000;

    /// <summary>The brightest room and the strongest lamp, 999,999,999 mlx: ten times full sunlight.</summary>
    public const int MaxMillilux = 999_999_999;

    /// <summary>The highest fault number.</summary>
    public const int MaxFaultCode = 9_999;

    /// <summary>The most characters of a model's name.</summary>
    public const int MaxModelLength = 16;

    /// <summary>The most characters of a firmware version.</summary>
    public const int MaxFirmwareLength = 10;

    /// <summary>The most ability letters, known or not.</summary>
    public const int MaxAbilities = 13;

    /// <summary>The most stops of a dial.</summary>
    public const int MaxStops = 32;

    /// <summary>The most stimuli of a train, per eye.</summary>
    public const int MaxStimuli = 99;

    /// <summary>The longest dwell or gap of a train, 60,000 ms.</summary>
    public const int MaxTrainMilliseconds = 60_000;

    /// <summary>The most seconds in a <c>HELD</c> line.</summary>
    public const int MaxHeldSeconds = 999_999;
}
