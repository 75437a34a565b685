namespace PupilBridge.Simulator.Faults;

/// <summary>Spoils single bytes, each with the same small probability.</summary>
public abstract class SpoiledBytes : ByteFault
{
    private readonly double probability;
    private byte[] room = new byte[256];

    /// <summary>Makes the fault.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="probability">Probability for each byte, 0 to 1.</param>
    /// <param name="chance">Its chance.</param>
    protected SpoiledBytes(string name, double probability, Chance chance)
        : base(name)
    {
        this.probability = probability;
        Chance = chance;
    }

    /// <summary>Its chance.</summary>
    protected Chance Chance { get; }

    /// <inheritdoc/>
    protected override void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        if (room.Length < arriving.Length * 2)
        {
            room = new byte[arriving.Length * 2];
        }

        var count = 0;
        foreach (var value in arriving)
        {
            if (!Chance.Happens(probability))
            {
                room[count++] = value;
                continue;
            }

            CountFired();
            count += SpoilOne(value, room.AsSpan(count, 2));
        }

        if (count > 0)
        {
            leaving(room.AsSpan(0, count));
        }
    }

    /// <summary>Spoils one byte.</summary>
    /// <param name="value">The byte.</param>
    /// <param name="into">Room for what it becomes.</param>
    /// <returns>How many bytes it became, 0 to 2.</returns>
    protected abstract int SpoilOne(byte value, Span<byte> into);
}

/// <summary>One bit of a byte arrives turned over.</summary>
/// <param name="probability">Probability for each byte.</param>
/// <param name="chance">Its chance.</param>
public sealed class FlippedBits(double probability, Chance chance) : SpoiledBytes(FaultNames.Flip, probability, chance)
{
    /// <inheritdoc/>
    protected override int SpoilOne(byte value, Span<byte> into)
    {
        into[0] = (byte)(value ^ (1 << Chance.NextInteger(0, 8)));
        return 1;
    }
}

/// <summary>A byte does not arrive.</summary>
/// <param name="probability">Probability for each byte.</param>
/// <param name="chance">Its chance.</param>
public sealed class DroppedBytes(double probability, Chance chance) : SpoiledBytes(FaultNames.Drop, probability, chance)
{
    /// <inheritdoc/>
    protected override int SpoilOne(byte value, Span<byte> into) => 0;
}

/// <summary>A byte arrives twice.</summary>
/// <param name="probability">Probability for each byte.</param>
/// <param name="chance">Its chance.</param>
public sealed class DoubledBytes(double probability, Chance chance)
    : SpoiledBytes(FaultNames.Doubled, probability, chance)
{
    /// <inheritdoc/>
    protected override int SpoilOne(byte value, Span<byte> into)
    {
        into[0] = into[1] = value;
        return 2;
    }
}
