namespace PupilBridge.Clinic.Views;

/// <summary>The instruments and the lines to them.</summary>
/// <param name="IsLive">Whether a service is running; without one, only what the journal knows is shown.</param>
/// <param name="Instruments">The instruments by serial number.</param>
/// <param name="Lines">The ports that are listened on; empty without a running service.</param>
/// <param name="Trouble">Why nothing can be recorded just now, for a person; null when all is well.</param>
public sealed record InstrumentList(
    bool IsLive,
    IReadOnlyList<InstrumentView> Instruments,
    IReadOnlyList<LineView> Lines,
    string? Trouble
);

/// <summary>One instrument.</summary>
public sealed record InstrumentView
{
    /// <summary>Its serial number.</summary>
    public required string Instrument { get; init; }

    /// <summary>The model, as it says itself; empty if it never did.</summary>
    public required string Model { get; init; }

    /// <summary>The version of its program; empty if it never said.</summary>
    public required string Firmware { get; init; }

    /// <summary>The port it was met on last; null if that is not known.</summary>
    public required string? Port { get; init; }

    /// <summary>The state of the line in a word: <c>connected</c>, <c>lost</c>, <c>stalled</c>, <c>off</c> or <c>not-seen</c>.</summary>
    public required string Line { get; init; }

    /// <summary>When its last line came, in UTC; null without a running service.</summary>
    public required DateTimeOffset? HeardAt { get; init; }

    /// <summary>The battery's charge in percent; null if it has none or did not tell.</summary>
    public required int? BatteryPercent { get; init; }

    /// <summary>The number of the exam that takes its events; null if none does.</summary>
    public required long? OpenExam { get; init; }

    /// <summary>The last fault that the instrument told since it was switched on, in words; null for none.</summary>
    public string? Fault { get; init; }
}

/// <summary>One port that is listened on.</summary>
/// <param name="Port">Its name.</param>
/// <param name="State">What goes on there, in a word.</param>
/// <param name="Detail">More about it, and what to do where something is wrong; may be empty.</param>
/// <param name="Instrument">The serial number of the instrument there; null if none was met.</param>
public sealed record LineView(string Port, string State, string Detail, string? Instrument);
