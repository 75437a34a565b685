using PupilBridge.Instrument;

namespace PupilBridge.Worker.Live;

/// <summary>
/// One instrument as it is just now: what it says, shown at once. Nothing here is recorded unless its number is at most
/// <see cref="Recorded"/>; a screen makes that difference visible.
/// </summary>
public sealed record LiveInstrument
{
    /// <summary>Its serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The maker's name for this kind of instrument.</summary>
    public required string Model { get; init; }

    /// <summary>The version of its program.</summary>
    public required string Firmware { get; init; }

    /// <summary>What it can do.</summary>
    public required InstrumentAbilities Abilities { get; init; }

    /// <summary>The present boot.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The port that it was met on last.</summary>
    public required string Port { get; init; }

    /// <summary>Whether its line is up.</summary>
    public required bool IsConnected { get; init; }

    /// <summary>When its last line came, in UTC.</summary>
    public required DateTimeOffset HeardAt { get; init; }

    /// <summary>The number of the last event received in this boot; 0 for none.</summary>
    public long Received { get; init; }

    /// <summary>The number of the last event of this boot that is on disk; 0 for none.</summary>
    public long Recorded { get; init; }

    /// <summary>The charge in percent; null where it has no battery or did not tell yet.</summary>
    public int? BatteryPercent { get; init; }

    /// <summary>What the dial asks for; null as long as the instrument did not tell in this boot.</summary>
    public LiveMode? Mode { get; init; }

    /// <summary>The light in the room; null as long as the instrument did not tell.</summary>
    public LiveRoom? Room { get; init; }

    /// <summary>Where the patient looks, as the instrument tells.</summary>
    public FixationDistance Fixation { get; init; }

    /// <summary>Whether the viewing lens is in; null as long as the instrument did not tell.</summary>
    public bool? LensIn { get; init; }

    /// <summary>The two scales.</summary>
    public PerEye<LiveScale> Scales { get; init; } = new() { Right = LiveScale.NotSeen, Left = LiveScale.NotSeen };

    /// <summary>The two lamps.</summary>
    public PerEye<LiveLamp> Lamps { get; init; } = new() { Right = LiveLamp.NotSeen, Left = LiveLamp.NotSeen };

    /// <summary>The instrument's last fault, as number and words; null for none in this boot.</summary>
    public string? Fault { get; init; }
}

/// <summary>What the dial asks for.</summary>
/// <param name="Mode">The mode.</param>
/// <param name="Block">The block, or none.</param>
/// <param name="Cause">Whether a hand did it or the sequence went on.</param>
/// <param name="SinceAbout">When, by estimate, in UTC.</param>
public sealed record LiveMode(InstrumentMode Mode, Block Block, ModeCause Cause, DateTimeOffset SinceAbout);

/// <summary>The light in the room.</summary>
/// <param name="Level">How it was told.</param>
/// <param name="Millilux">Thousandths of a lux, where it was measured.</param>
public sealed record LiveRoom(RoomLightLevel Level, int Millilux);

/// <summary>Where one scale is.</summary>
/// <param name="Position">The position last heard; null for none yet.</param>
/// <param name="IsMoving">Whether the scale was on the move when that was said.</param>
/// <param name="At">When that was heard, in UTC.</param>
public sealed record LiveScale(Micrometres? Position, bool IsMoving, DateTimeOffset At)
{
    /// <summary>A scale of which nothing was heard.</summary>
    public static LiveScale NotSeen { get; } = new(null, false, DateTimeOffset.UnixEpoch);
}

/// <summary>What one lamp does.</summary>
/// <param name="IsOn">Whether it is on.</param>
/// <param name="LevelPercent">Percent of full output.</param>
/// <param name="SinceTick">The tick at which it was switched.</param>
/// <param name="SinceAbout">The same in UTC, by estimate.</param>
/// <param name="LastDwell">How long it was on the last time, by the instrument's ticks; null for never.</param>
public sealed record LiveLamp(
    bool IsOn,
    int LevelPercent,
    Tick SinceTick,
    DateTimeOffset SinceAbout,
    TimeSpan? LastDwell
)
{
    /// <summary>A lamp of which nothing was heard.</summary>
    public static LiveLamp NotSeen { get; } = new(false, 0, default, DateTimeOffset.UnixEpoch, null);
}
