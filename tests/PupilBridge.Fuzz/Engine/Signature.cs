namespace PupilBridge.Fuzz.Engine;

/// <summary>
/// How the product behaved, in 64 bits. It stands in for measured code coverage: whoever takes another branch mostly shows another
/// outcome, error, state or order of magnitude.
/// </summary>
internal struct Signature()
{
    private ulong bits = 0xCBF29CE484222325;

    /// <summary>Something that was seen.</summary>
    public void Add(int what) => bits = (bits ^ (uint)what) * 0x100000001B3;

    /// <summary>A count, of which only the order of magnitude matters.</summary>
    public void Bucket(long count) =>
        Add(count <= 3 ? (int)count : 64 - System.Numerics.BitOperations.LeadingZeroCount((ulong)count) + 4);

    /// <summary>The bits.</summary>
    public readonly ulong Bits => bits;
}
