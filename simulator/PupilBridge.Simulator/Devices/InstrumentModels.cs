using System.Collections.Immutable;
using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>The two simulated models, with different dials, scales and abilities.</summary>
public static class InstrumentModels
{
    /// <summary>
    /// Quay-A: mark keys, a light sensor, fixation told, switched off and given stimulus trains by the host, battery; seven
    /// stops; scales that count away from the nose in steps of 10 µm.
    /// </summary>
    public static InstrumentModel QuayA { get; } =
        new()
        {
            Name = "Quay-A",
            Firmware = "1.4.0",
            Abilities =
                InstrumentAbilities.MarkKeys
                | InstrumentAbilities.LightSensor
                | InstrumentAbilities.Fixation
                | InstrumentAbilities.StimulusProfile
                | InstrumentAbilities.SwitchOff
                | InstrumentAbilities.Battery,
            Stops = Dial(
                (InstrumentMode.Measure, Block.None),
                (InstrumentMode.Idle, Block.None),
                (InstrumentMode.Sequence, Block.None),
                (InstrumentMode.Hold, Block.Direct),
                (InstrumentMode.Hold, Block.SwingShort),
                (InstrumentMode.Hold, Block.SwingLong),
                (InstrumentMode.Hold, Block.Near)
            ),
            Scales = Both(2_000, ScaleDirection.Temporal, 10, 0, 30_000),
            Sequence = [Block.Direct, Block.SwingShort, Block.SwingLong, Block.Near],
        };

    /// <summary>
    /// Quay-B: no mark keys, a bright/dim switch, a viewing lens, light meters at its lamps, no remote control; six stops in
    /// another order, and no near block in its sequence; scales that count towards the nose in steps of 50 µm.
    /// </summary>
    public static InstrumentModel QuayB { get; } =
        new()
        {
            Name = "Quay-B",
            Firmware = "2.0.3",
            Abilities =
                InstrumentAbilities.LightSwitch
                | InstrumentAbilities.ViewingLens
                | InstrumentAbilities.Fixation
                | InstrumentAbilities.LampMeter,
            Stops = Dial(
                (InstrumentMode.Hold, Block.Near),
                (InstrumentMode.Hold, Block.SwingLong),
                (InstrumentMode.Hold, Block.SwingShort),
                (InstrumentMode.Sequence, Block.None),
                (InstrumentMode.Idle, Block.None),
                (InstrumentMode.Measure, Block.None)
            ),
            Scales = Both(16_000, ScaleDirection.Nasal, 50, 500, 18_000),
            Sequence = [Block.Direct, Block.SwingShort, Block.SwingLong],
        };

    /// <summary>Both models.</summary>
    public static ImmutableArray<InstrumentModel> All => [QuayA, QuayB];

    /// <summary>Finds a model by its name, in any case.</summary>
    /// <param name="name">The name.</param>
    /// <returns>The model; null if there is none.</returns>
    public static InstrumentModel? Find(string name) =>
        All.FirstOrDefault(m => string.Equals(m.Name, name, StringComparison.OrdinalIgnoreCase));

    private static ImmutableArray<DialStop> Dial(params (InstrumentMode Mode, Block Block)[] stops) =>
        [.. stops.Select((stop, i) => new DialStop(i + 1, stop.Mode, stop.Block))];

    private static PerEye<ScaleDescription> Both(
        int home,
        ScaleDirection direction,
        int resolution,
        int lowest,
        int highest
    )
    {
        var scale = new ScaleDescription(new(home), direction, new(resolution), new(lowest), new(highest));
        return new PerEye<ScaleDescription> { Right = scale, Left = scale };
    }
}
