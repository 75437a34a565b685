using System.Globalization;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// Takes a journal's segments into a backup. A piece is named after the segment's number and the chain's value after its header, which
/// stands for all that is before it, and the last sequence in it: a journal that took another course (after the restoring of an older
/// backup) has other pieces from there on.
/// </summary>
/// <param name="store">Where pieces go.</param>
/// <param name="shelf">What lies there already.</param>
/// <param name="cancel">Gives up.</param>
internal sealed class SegmentBackup(PieceStore store, PieceShelf shelf, CancellationToken cancel)
{
    private const int ChainDigits = 16;

    /// <summary>How many pieces were written.</summary>
    public int NewPieces { get; private set; }

    /// <summary>How many bytes were written for them.</summary>
    public long NewBytes { get; private set; }

    /// <summary>Whether the position that was looked for was passed.</summary>
    public bool Passed { get; private set; }

    /// <summary>Takes one segment.</summary>
    /// <param name="segment">The segment.</param>
    /// <param name="end">How far the last one of the journal counts.</param>
    /// <param name="lookFor">The head that the running service told.</param>
    /// <exception cref="BackupException">It cannot be written.</exception>
    public SegmentPiece Take(JournalSegment segment, JournalPosition end, JournalPosition lookFor)
    {
        var upTo = segment.DurableTo ?? end.Sequence;
        if (segment.Start is { } start && upTo >= 0)
        {
            var name = NameOf(segment, start, upTo);
            if (shelf.Segment(name) is { Damage: null } known)
            {
                Passed |= Ends(known).Contains(lookFor) || new JournalPosition(known.Before, start) == lookFor;
                return known with { IsClosed = segment.DurableTo is not null };
            }

            try
            {
                return Copy(segment, upTo, name, lookFor);
            }
            catch (SegmentBrokenException fault)
            {
                return CopyAsItIs(segment, upTo, fault.Message);
            }
        }

        return CopyAsItIs(
            segment,
            Math.Max(upTo, segment.Before.Sequence),
            "its header is damaged, or its successor's"
        );
    }

    private SegmentPiece Copy(JournalSegment segment, long upTo, string name, JournalPosition lookFor)
    {
        SegmentExtent? extent = null;
        var piece = store.Write(
            to =>
            {
                using var from = OpenSource(segment);
                extent = SegmentCopy.Copy(from, to, upTo, lookFor);
            },
            _ => name,
            cancel
        );
        var made = Made(segment, piece, extent!.End, segment.DurableTo is not null, null);
        ReadBack(made);
        Passed |= extent.Passed;
        return Noted(made);
    }

    /// <summary>A damaged segment lies in the backup as it is: what is still sound in it must not be lost.</summary>
    private SegmentPiece CopyAsItIs(JournalSegment segment, long upTo, string damage)
    {
        var piece = store.Write(
            to =>
            {
                using var from = OpenSource(segment);
                from.CopyTo(to, 1 << 20);
            },
            sha256 =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"segment-{segment.Number:D10}-damaged-{sha256[..ChainDigits]}.pbj{store.Suffix}"
                ),
            cancel
        );
        store.Compare(piece, cancel);
        return Noted(Made(segment, piece, new JournalPosition(upTo, default), segment.DurableTo is not null, damage));
    }

    /// <summary>Reads a new piece back from the destination: opened and chained where it can be opened, byte for byte otherwise.</summary>
    private void ReadBack(SegmentPiece made)
    {
        if (store.CanOpen)
        {
            BackupCheck.Segment(store, made, cancel);
        }
        else
        {
            store.Compare(made.Piece, cancel);
        }
    }

    private SegmentPiece Noted(SegmentPiece made)
    {
        NewPieces++;
        NewBytes += made.Piece.StoredBytes;
        shelf.Note(made);
        return made;
    }

    private static SegmentPiece Made(
        JournalSegment segment,
        Piece piece,
        JournalPosition end,
        bool isClosed,
        string? damage
    ) =>
        new(
            segment.Number,
            piece,
            segment.Before.Sequence,
            segment.Before.Hash.ToString(),
            end.Sequence,
            damage is null ? end.Hash.ToString() : "",
            isClosed,
            damage
        );

    private string NameOf(JournalSegment segment, ChainHash start, long upTo) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"segment-{segment.Number:D10}-{start.ToString()[..ChainDigits]}-to-{upTo}.pbj{store.Suffix}"
        );

    /// <summary>Whether two sound pieces are of one segment, the same file in its time: number and the chain's value after its header agree.</summary>
    public static bool IsOneSegment(SegmentPiece one, SegmentPiece other) =>
        one.Number == other.Number && Start(one) == Start(other);

    private static string Start(SegmentPiece piece) => piece.Piece.File.Split("-to-")[0];

    private static IEnumerable<JournalPosition> Ends(SegmentPiece piece)
    {
        if (ChainHash.TryParse(piece.BeforeChain, out var before))
        {
            yield return new JournalPosition(piece.Before, before);
        }

        if (ChainHash.TryParse(piece.Chain, out var chain))
        {
            yield return new JournalPosition(piece.Last, chain);
        }
    }

    private static FileStream OpenSource(JournalSegment segment) =>
        new(
            segment.Path,
            FileMode.Open,
            FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete,
            1 << 20,
            FileOptions.SequentialScan
        );
}
