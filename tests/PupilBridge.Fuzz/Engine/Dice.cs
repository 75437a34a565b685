namespace PupilBridge.Fuzz.Engine;

/// <summary>Chance from a seed: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014), quick and without state beyond eight bytes.</summary>
/// <param name="seed">The same seed gives the same throws.</param>
internal struct Dice(ulong seed)
{
    private ulong state = seed;

    /// <summary>The next 64 bits.</summary>
    public ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>A number from 0 to one below a limit; 0 where the limit is 0.</summary>
    public int Below(int limit) => (int)Math.BigMul(Next(), (ulong)limit, out _);

    /// <summary>True once in so many throws.</summary>
    public bool OneIn(int many) => Below(many) == 0;

    /// <summary>One of some values.</summary>
    public T Any<T>(ReadOnlySpan<T> values) => values[Below(values.Length)];

    /// <summary>A seed for somebody else.</summary>
    public static ulong Mix(ulong one, ulong other) => new Dice(one ^ (other * 0xD1342543DE82EF95)).Next();
}
