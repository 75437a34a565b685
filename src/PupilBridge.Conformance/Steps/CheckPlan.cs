namespace PupilBridge.Conformance.Steps;

/// <summary>What a run may do.</summary>
/// <param name="Started">When it began; command numbers are drawn from it, so that no two runs share one.</param>
public sealed record CheckPlan(DateTimeOffset Started)
{
    /// <summary>How long to listen at the end; at least 6 s.</summary>
    public TimeSpan Endurance { get; init; } = TimeSpan.FromSeconds(6);

    /// <summary>The serial number that stands on the instrument; null if nobody has looked.</summary>
    public string? Serial { get; init; }

    /// <summary>Whether events that tell of an exam may be acknowledged, and so be forgotten by the instrument.</summary>
    public bool MayDiscard { get; init; }

    /// <summary>Who does things at the instrument; null if nobody is there.</summary>
    public IBenchHands? Hands { get; init; }
}

/// <summary>What somebody is asked to do at the instrument.</summary>
public enum HandTask
{
    /// <summary>Turn the dial to another stop, and on to one that measures.</summary>
    TurnDial = 1,

    /// <summary>Slide both scales slowly to one end, let them rest, then to the other end, and let them rest.</summary>
    MoveScales = 2,

    /// <summary>Press a mark key.</summary>
    MarkEdge = 3,

    /// <summary>Turn the dial so that a lamp lights.</summary>
    LightLamp = 4,

    /// <summary>Change the light in the room, or turn its switch.</summary>
    ChangeRoom = 5,

    /// <summary>Change between far and near target.</summary>
    ChangeFixation = 6,

    /// <summary>Swing the viewing lens.</summary>
    SwingLens = 7,

    /// <summary>Cause more than 600 events.</summary>
    FillMemory = 8,
}

/// <summary>A person at the instrument, or what stands in for one.</summary>
public interface IBenchHands
{
    /// <summary>How long it may take until the task is done.</summary>
    TimeSpan Patience { get; }

    /// <summary>Asks for something.</summary>
    /// <param name="task">What.</param>
    /// <returns>Whether it will be done; false if it cannot be here.</returns>
    bool Ask(HandTask task);

    /// <summary>Says that the events for it came, so that nobody waits or does it over again.</summary>
    /// <param name="task">What.</param>
    void Thank(HandTask task);

    /// <summary>Asks, when nothing came of it, whether it was really done.</summary>
    /// <param name="task">What.</param>
    /// <returns>Whether it was.</returns>
    bool WasDone(HandTask task);
}
