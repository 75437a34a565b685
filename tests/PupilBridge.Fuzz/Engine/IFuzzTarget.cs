namespace PupilBridge.Fuzz.Engine;

/// <summary>One part of the product under changed inputs, with the oracles that judge it. Used by one thread at a time.</summary>
internal interface IFuzzTarget
{
    /// <summary>Inputs to begin with: valid ones, and those that failed once.</summary>
    IReadOnlyList<byte[]> Seeds { get; }

    /// <summary>The most bytes of an input.</summary>
    int MaxBytes { get; }

    /// <summary>Makes an input out of one or two others.</summary>
    /// <param name="from">The one that is changed.</param>
    /// <param name="other">One from which pieces may be taken.</param>
    /// <param name="into">Room for the new one.</param>
    /// <param name="dice">Chance.</param>
    /// <returns>Its length.</returns>
    int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice);

    /// <summary>Gives the product one input.</summary>
    /// <param name="input">The input.</param>
    /// <returns>How it behaved, in few bits: an input that shows a behaviour not seen before is kept and changed further.</returns>
    /// <exception cref="Finding">An oracle was contradicted. Any other exception is a finding, too.</exception>
    ulong Run(ReadOnlySpan<byte> input);

    /// <summary>How many units (lines, records, bodies) were given so far.</summary>
    long Units { get; }
}
