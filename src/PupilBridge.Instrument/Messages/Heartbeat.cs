namespace PupilBridge.Instrument;

/// <summary>What an instrument says of itself each second (<c>BEAT</c>).</summary>
/// <param name="Boot">The present boot.</param>
/// <param name="Tick">The tick at which the line was made.</param>
/// <param name="OldestKept">
/// The lowest event number that the instrument still answers for, events within a gap included; <c>Last + 1</c> if it keeps
/// nothing.
/// </param>
/// <param name="Last">The highest number given in this boot; 0 if none.</param>
/// <param name="BatteryPercent">0 to 100, or null where it has no battery.</param>
public readonly record struct Heartbeat(BootNumber Boot, Tick Tick, long OldestKept, long Last, byte? BatteryPercent);

/// <summary>Where a moving scale is just now (<c>POS</c>): shown at once, never evidence, never recorded.</summary>
/// <param name="Eye">The eye whose scale moves.</param>
/// <param name="Position">0 to 99,999 µm.</param>
/// <param name="Tick">When.</param>
public readonly record struct LivePosition(Eye Eye, Micrometres Position, Tick Tick);
