using System.Text;

namespace PupilBridge.Simulator.Faults;

/// <summary>Now and then, bytes that nobody sent stand on the line.</summary>
public abstract class InsertedBytes : ByteFault
{
    private readonly TimeSpan meanInterval;
    private TimeSpan? next;

    /// <summary>Makes the fault.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="meanInterval">Mean time between two insertions, above zero; they come at random (exponentially).</param>
    /// <param name="chance">Its chance.</param>
    protected InsertedBytes(string name, TimeSpan meanInterval, Chance chance)
        : base(name)
    {
        this.meanInterval = meanInterval;
        Chance = chance;
    }

    /// <summary>Its chance.</summary>
    protected Chance Chance { get; }

    /// <summary>Whether the insertion keeps to the borders of lines.</summary>
    protected virtual bool AtLineStart => false;

    /// <inheritdoc/>
    protected override void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        next ??= now + Interval();
        if (now < next)
        {
            if (!arriving.IsEmpty)
            {
                leaving(arriving);
            }

            return;
        }

        next = now + Interval();
        CountFired();
        var at = AtLineStart ? arriving.IndexOf((byte)'\n') + 1 : Chance.NextInteger(0, arriving.Length + 1);
        leaving([.. arriving[..at], .. Inserted(), .. arriving[at..]]);
    }

    /// <summary>The bytes that nobody sent.</summary>
    /// <returns>At least one.</returns>
    protected abstract byte[] Inserted();

    /// <summary>Random bytes.</summary>
    /// <param name="length">How many.</param>
    /// <returns>The bytes.</returns>
    protected byte[] AnyBytes(int length)
    {
        var bytes = new byte[length];
        for (var i = 0; i < length; i++)
        {
            bytes[i] = (byte)Chance.NextBits();
        }

        return bytes;
    }

    private TimeSpan Interval() => meanInterval * -Math.Log(1 - Chance.NextUnit());
}

/// <summary>Noise on the line: a few random bytes in the middle of anything.</summary>
/// <param name="meanInterval">Mean time between two bursts.</param>
/// <param name="chance">Its chance.</param>
public sealed class LineNoise(TimeSpan meanInterval, Chance chance)
    : InsertedBytes(FaultNames.Noise, meanInterval, chance)
{
    /// <inheritdoc/>
    protected override byte[] Inserted() => AnyBytes(Chance.NextInteger(1, 9));
}

/// <summary>A long burst of binary garbage, as when another program writes to the port.</summary>
/// <param name="meanInterval">Mean time between two bursts.</param>
/// <param name="chance">Its chance.</param>
public sealed class BinaryGarbage(TimeSpan meanInterval, Chance chance)
    : InsertedBytes(FaultNames.Garbage, meanInterval, chance)
{
    /// <inheritdoc/>
    protected override byte[] Inserted() => AnyBytes(Chance.NextInteger(64, 513));
}

/// <summary>A line of printable characters that is longer than the protocol allows.</summary>
/// <param name="meanInterval">Mean time between two such lines.</param>
/// <param name="chance">Its chance.</param>
public sealed class OverlongLine(TimeSpan meanInterval, Chance chance)
    : InsertedBytes(FaultNames.Overlong, meanInterval, chance)
{
    /// <inheritdoc/>
    protected override bool AtLineStart => true;

    /// <inheritdoc/>
    protected override byte[] Inserted() =>
        Encoding.ASCII.GetBytes("NOTE," + new string('x', Chance.NextInteger(150, 600)) + "*00000000\n");
}
