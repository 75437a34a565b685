using System.Collections.Immutable;

namespace PupilBridge.Instrument.Links;

/// <summary>
/// The CRCs of the last lines that were accepted in a boot, by the number of their event: at most
/// <see cref="LinkTiming.FingerprintsRemembered"/>, a later number takes the place of the one so many before it. A value: it never
/// changes.
/// </summary>
/// <remarks>
/// They change with every event of every instrument. Pieces of a fixed length are copied then, and not the branches of a tree, whose
/// nodes take five times the memory.
/// </remarks>
internal sealed class Fingerprints
{
    private const int PieceLength = 32;
    private const int Pieces = LinkTiming.FingerprintsRemembered / PieceLength;

    private readonly ImmutableArray<ImmutableArray<Print>> pieces;

    private Fingerprints(ImmutableArray<ImmutableArray<Print>> pieces) => this.pieces = pieces;

    /// <summary>None.</summary>
    public static Fingerprints None { get; } =
        new([.. Enumerable.Repeat(ImmutableArray.Create(new Print[PieceLength]), Pieces)]);

    /// <summary>Finds what is known of a number.</summary>
    /// <param name="sequence">The number, from 1.</param>
    /// <param name="crc">The CRC of its line; null if it stands as lost.</param>
    /// <returns>False if nothing is known of it: it is too old, or has not been accepted.</returns>
    public bool TryGet(long sequence, out uint? crc)
    {
        var print = sequence < 1 ? default : pieces[PieceOf(sequence)][PlaceOf(sequence)];
        var isKnown = sequence >= 1 && print.Sequence == sequence;
        crc = isKnown ? print.Crc : null;
        return isKnown;
    }

    /// <summary>With one more number.</summary>
    /// <param name="sequence">The number, from 1. One whose place a later number has is too old, and changes nothing.</param>
    /// <param name="crc">The CRC of its line; null if it stands as lost.</param>
    public Fingerprints With(long sequence, uint? crc) =>
        pieces[PieceOf(sequence)][PlaceOf(sequence)].Sequence > sequence ? this : Put(sequence, new(sequence, crc));

    /// <summary>Without a number.</summary>
    /// <param name="sequence">The number, from 1.</param>
    public Fingerprints Without(long sequence) => TryGet(sequence, out _) ? Put(sequence, default) : this;

    private Fingerprints Put(long sequence, Print print)
    {
        var piece = PieceOf(sequence);
        return new(pieces.SetItem(piece, pieces[piece].SetItem(PlaceOf(sequence), print)));
    }

    private static int PieceOf(long sequence) => (int)(sequence / PieceLength % Pieces);

    private static int PlaceOf(long sequence) => (int)(sequence % PieceLength);

    private readonly record struct Print(long Sequence, uint? Crc);
}
