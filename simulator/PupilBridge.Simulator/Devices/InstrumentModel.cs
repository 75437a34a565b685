using System.Collections.Immutable;
using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>The stimulus train of one block.</summary>
/// <param name="StimuliPerEye">1 to 99; for the swinging blocks this is the number of alternations.</param>
/// <param name="Dwell">How long the lamp is on, 1 ms to 60 s.</param>
/// <param name="Gap">How long it is off before the next stimulus, 0 to 60 s.</param>
public readonly record struct StimulusTrain(int StimuliPerEye, TimeSpan Dwell, TimeSpan Gap);

/// <summary>How a kind of simulated instrument is built. It holds no state.</summary>
public sealed record InstrumentModel
{
    /// <summary>Its name, as it declares it.</summary>
    public required string Name { get; init; }

    /// <summary>The version of its program, as it declares it.</summary>
    public required string Firmware { get; init; }

    /// <summary>What it can do.</summary>
    public required InstrumentAbilities Abilities { get; init; }

    /// <summary>The stops of its dial, in order.</summary>
    public required ImmutableArray<DialStop> Stops { get; init; }

    /// <summary>Its scales.</summary>
    public required PerEye<ScaleDescription> Scales { get; init; }

    /// <summary>The blocks that follow each other in the mode <c>sequence</c>.</summary>
    public required ImmutableArray<Block> Sequence { get; init; }

    /// <summary>Output of the lamps, 1 to 100 %.</summary>
    public int LampPercent { get; init; } = 100;

    /// <summary>The trains that it runs before anyone sets others.</summary>
    public ImmutableDictionary<Block, StimulusTrain> Trains { get; init; } = DefaultTrains;

    /// <summary>
    /// Direct: three stimuli of 1 s per eye, 3 s apart; swinging short 1 s (a convention, no source) and long 3 s (Bell RA et
    /// al., Arch Ophthalmol 1993;111(7):938–942), four alternations each, without a gap.
    /// </summary>
    public static ImmutableDictionary<Block, StimulusTrain> DefaultTrains { get; } =
        new Dictionary<Block, StimulusTrain>
        {
            [Block.Direct] = new(3, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(3)),
            [Block.SwingShort] = new(4, TimeSpan.FromSeconds(1), TimeSpan.Zero),
            [Block.SwingLong] = new(4, TimeSpan.FromSeconds(3), TimeSpan.Zero),
        }.ToImmutableDictionary();

    /// <summary>Whether it can do something.</summary>
    /// <param name="ability">One ability.</param>
    /// <returns>True if it can.</returns>
    public bool Can(InstrumentAbilities ability) => (Abilities & ability) == ability;

    /// <summary>The stop that stands for a mode and block.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="block">The block, or none.</param>
    /// <returns>The stop; null if the dial has none.</returns>
    public DialStop? Stop(InstrumentMode mode, Block block = Block.None)
    {
        foreach (var stop in Stops)
        {
            if (stop.Mode == mode && stop.Block == block)
            {
                return stop;
            }
        }

        return null;
    }
}
