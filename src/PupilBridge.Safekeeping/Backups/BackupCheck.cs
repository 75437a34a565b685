using System.Formats.Tar;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Envelopes;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>A backup that was checked.</summary>
/// <param name="Catalogue">What it consists of.</param>
/// <param name="Bytes">How many bytes were read.</param>
/// <param name="WasOpened">Whether the pieces were opened and the chain was checked; otherwise they were compared byte for byte.</param>
public sealed record BackupChecked(Catalogue Catalogue, long Bytes, bool WasOpened);

/// <summary>Checks a backup as it lies at its destination.</summary>
public static class BackupCheck
{
    /// <summary>Reads all pieces of a backup; where they can be opened, checks that the journal in them is whole and leads to its head.</summary>
    /// <param name="place">The destination.</param>
    /// <param name="number">Which backup; null for the latest.</param>
    /// <param name="envelope">What opens its pieces; null to compare their bytes with the catalogue only.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="BackupException">It is not whole; the message names the piece.</exception>
    public static BackupChecked Run(BackupPlace place, int? number, Envelope? envelope, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        var catalogue = place.Find(number);
        var canOpen = envelope is { CanOpen: true };
        var store = new PieceStore(place, envelope ?? new PlainEnvelope());
        if (canOpen)
        {
            BackupMark.Prove(place, envelope!);
            Chain(store, catalogue, cancel);
            Archive(store, catalogue.Files, cancel);
        }
        else
        {
            foreach (var piece in catalogue.Pieces)
            {
                store.Compare(piece, cancel);
            }
        }

        return new BackupChecked(catalogue, catalogue.Pieces.Sum(piece => piece.StoredBytes), canOpen);
    }

    /// <summary>Opens a segment's piece and checks every record.</summary>
    internal static void Segment(PieceStore store, SegmentPiece segment, CancellationToken cancel) =>
        Segment(store, segment, Stream.Null, cancel);

    /// <summary>Opens a segment's piece, checks every record, and writes it to a stream.</summary>
    internal static void Segment(PieceStore store, SegmentPiece segment, Stream to, CancellationToken cancel)
    {
        if (segment.Damage is not null)
        {
            store.Read(
                segment.Piece,
                from =>
                {
                    from.CopyTo(to);
                    return true;
                },
                cancel
            );
            return;
        }

        var extent = store.Read(segment.Piece, from => SegmentCopy.Copy(from, to, segment.Last), cancel);
        var isSame =
            extent.Number == segment.Number
            && extent.Before.Sequence == segment.Before
            && extent.Before.Hash.ToString() == segment.BeforeChain
            && extent.End.Hash.ToString() == segment.Chain
            && extent.Bytes == segment.Piece.Bytes;
        if (!isSame)
        {
            throw store.Broken(
                BackupTrouble.Damaged,
                segment.Piece,
                "holds another part of the journal than the catalogue says"
            );
        }
    }

    /// <summary>Opens the archive of the other files and reads it to its end.</summary>
    internal static void Archive(PieceStore store, Piece piece, CancellationToken cancel) =>
        store.Read(
            piece,
            from =>
            {
                using var archive = new TarReader(from, leaveOpen: true);
                while (archive.GetNextEntry() is not null) { }

                return true;
            },
            cancel
        );

    /// <summary>Whether each segment follows on the one before it, and the last leads to the head.</summary>
    /// <exception cref="BackupException">One does not.</exception>
    internal static void Links(PieceStore store, Catalogue catalogue)
    {
        SegmentPiece? before = null;
        foreach (var segment in catalogue.Segments)
        {
            var follows = before is null
                ? segment.Damage is not null || segment.Before == 0
                : before.Damage is not null
                    || segment.Damage is not null
                    || (segment.Before == before.Last && segment.BeforeChain == before.Chain);
            if (!follows)
            {
                throw store.Broken(BackupTrouble.Damaged, segment.Piece, "does not follow on the one before it");
            }

            before = segment;
        }

        if (before is { Damage: null } && (before.Last != catalogue.Sequence || before.Chain != catalogue.Chain))
        {
            throw store.Broken(
                BackupTrouble.Damaged,
                before.Piece,
                "does not lead to the head that the catalogue names"
            );
        }
    }

    private static void Chain(PieceStore store, Catalogue catalogue, CancellationToken cancel)
    {
        foreach (var segment in catalogue.Segments)
        {
            Segment(store, segment, cancel);
        }

        Links(store, catalogue);
    }
}
