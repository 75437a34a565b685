namespace PupilBridge.Fuzz.Engine;

/// <summary>The inputs that showed something new. Bounded: when it is full, new ones take the place of old ones that are no seeds.</summary>
internal sealed class Corpus
{
    private const int MostInputs = 8192;
    private const int MostSignatures = 1 << 20;
    private readonly HashSet<ulong> seen = [];
    private readonly List<byte[]> inputs = [];
    private int seeds;

    public int Count => inputs.Count;

    /// <summary>How many ways of behaving were seen.</summary>
    public int Behaviours => seen.Count;

    public void AddSeed(byte[] input, ulong signature)
    {
        seen.Add(signature);
        inputs.Add(input);
        seeds = inputs.Count;
    }

    /// <summary>Keeps an input if its behaviour is new.</summary>
    public void Offer(ReadOnlySpan<byte> input, ulong signature, ref Dice dice)
    {
        if (seen.Count >= MostSignatures || !seen.Add(signature))
            return;
        if (inputs.Count < MostInputs)
            inputs.Add(input.ToArray());
        else
            inputs[seeds + dice.Below(MostInputs - seeds)] = input.ToArray();
    }

    /// <summary>An input to change; those found last are preferred, since what they showed has been tried least.</summary>
    public byte[] Pick(ref Dice dice)
    {
        var recent = Math.Min(inputs.Count, 64);
        return dice.OneIn(3) ? inputs[^(1 + dice.Below(recent))] : inputs[dice.Below(inputs.Count)];
    }
}
