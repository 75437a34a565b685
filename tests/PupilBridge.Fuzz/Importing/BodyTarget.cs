using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Importing;

/// <summary>Something that reads one body a time, all at once: a file, a document, an entry.</summary>
/// <param name="name">Its name, under which inputs that failed are kept.</param>
/// <param name="seeds">Valid bodies.</param>
/// <param name="read">Reads one and judges what came of it; gives the behaviour.</param>
/// <param name="isText">Whether bodies are changed as text with fields.</param>
internal sealed class BodyTarget(string name, IEnumerable<byte[]> seeds, BodyReader read, bool isText = true)
    : IFuzzTarget
{
    public IReadOnlyList<byte[]> Seeds { get; } = [.. seeds, .. FailedBefore.Of(name)];

    public int MaxBytes => 32_768;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        if (isText)
            return TextMutator.Change(from, other, into, ref dice);
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        for (var times = 1 + dice.Below(4); times > 0; times--)
            length = Shredder.Change(into, length, other, ref dice);
        return length;
    }

    public ulong Run(ReadOnlySpan<byte> input)
    {
        Units++;
        return read(input);
    }
}

/// <summary>Reads one body.</summary>
/// <returns>How the product behaved.</returns>
internal delegate ulong BodyReader(ReadOnlySpan<byte> body);
