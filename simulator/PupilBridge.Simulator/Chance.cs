namespace PupilBridge.Simulator;

/// <summary>
/// Chance from a seed: the same seed and purpose give the same draws on every machine and every version of the runtime
/// (which <see cref="System.Random"/> does not promise). Each part of the simulation draws from a stream of its own, so
/// that switching one fault on does not change what the eyes do.
/// </summary>
/// <remarks>
/// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014); constants from memory,
/// held by a test vector. Not for secrets.
/// </remarks>
public sealed class Chance
{
    private ulong state;
    private double spareGaussian = double.NaN;

    /// <summary>Starts a stream.</summary>
    /// <param name="seed">Any number.</param>
    /// <param name="purpose">What the draws are for; another purpose gives an unrelated stream.</param>
    public Chance(long seed, string purpose)
    {
        ArgumentNullException.ThrowIfNull(purpose);
        state = unchecked((ulong)seed);
        foreach (var c in purpose)
        {
            state = Mix(state + c);
        }
    }

    /// <summary>The next 64 bits.</summary>
    /// <returns>Any value.</returns>
    public ulong NextBits()
    {
        state = unchecked(state + 0x9E3779B97F4A7C15UL);
        return Mix(state);
    }

    /// <summary>A number that is evenly spread over [0, 1).</summary>
    /// <returns>The number.</returns>
    public double NextUnit() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>A number that is evenly spread over a range.</summary>
    /// <param name="low">The lowest value.</param>
    /// <param name="high">The upper limit.</param>
    /// <returns>The number.</returns>
    public double NextBetween(double low, double high) => low + ((high - low) * NextUnit());

    /// <summary>A whole number of a range.</summary>
    /// <param name="low">The lowest value.</param>
    /// <param name="highExclusive">One more than the highest value; above <paramref name="low"/>.</param>
    /// <returns>The number.</returns>
    public int NextInteger(int low, int highExclusive)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(highExclusive, low);
        return low + (int)(NextUnit() * ((long)highExclusive - low));
    }

    /// <summary>Whether something of this probability happens now.</summary>
    /// <param name="probability">0 (never) to 1 (always).</param>
    /// <returns>True if it happens.</returns>
    public bool Happens(double probability) => NextUnit() < probability;

    /// <summary>A normally distributed number with mean 0 and standard deviation 1 (Box and Muller's polar form).</summary>
    /// <returns>The number.</returns>
    public double NextGaussian()
    {
        if (!double.IsNaN(spareGaussian))
        {
            var spare = spareGaussian;
            spareGaussian = double.NaN;
            return spare;
        }

        double x,
            y,
            square;
        do
        {
            x = NextBetween(-1, 1);
            y = NextBetween(-1, 1);
            square = (x * x) + (y * y);
        } while (square is >= 1 or 0);

        var scale = Math.Sqrt(-2 * Math.Log(square) / square);
        spareGaussian = y * scale;
        return x * scale;
    }

    private static ulong Mix(ulong z)
    {
        unchecked
        {
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }
}
