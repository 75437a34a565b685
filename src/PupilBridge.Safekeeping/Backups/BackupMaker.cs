using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Stamps;
using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// Makes a backup beside a running service or without one: the journal's segments first, then the other files, so that every key that the
/// journal in it needs is in it too. It reads everything back before it says that there is a backup.
/// </summary>
public sealed class BackupMaker
{
    private readonly BackupSource source;
    private readonly BackupPlace place;
    private readonly Envelope envelope;
    private readonly PieceStore store;
    private readonly CancellationToken cancel;

    private BackupMaker(BackupSource source, BackupPlace place, Envelope envelope, CancellationToken cancel)
    {
        (this.source, this.place, this.envelope, this.cancel) = (source, place, envelope, cancel);
        store = new PieceStore(place, envelope);
    }

    /// <summary>Makes a backup.</summary>
    /// <param name="source">What is backed up.</param>
    /// <param name="place">Where to.</param>
    /// <param name="envelope">How its pieces are sealed.</param>
    /// <param name="cancel">Gives up; what is complete stays for the next one.</param>
    /// <exception cref="BackupException">It cannot be made; earlier backups there are as they were.</exception>
    public static BackupMade Make(BackupSource source, BackupPlace place, Envelope envelope, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(envelope);
        try
        {
            PrivateFile.MakeFolder(place.Folder);
            using var alone = PlaceLock.Take(place);
            BackupMark.Agree(place, envelope);
            return new BackupMaker(source, place, envelope, cancel).Make();
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new BackupException(
                BackupTrouble.Storage,
                $"The backup to {place.Folder} could not be made: {fault.Message}",
                "See to room and permissions there and at the data folder, and run the command again. Complete backups of this "
                    + "destination stay as they are.",
                fault
            );
        }
    }

    private BackupMade Make()
    {
        var shelf = new PieceShelf(place, store);
        var end = source.RunningHead ?? EndOfFiles();
        var taken = new SegmentBackup(store, shelf, cancel);
        SegmentPiece[] segments = [.. Segments(end).Select(segment => taken.Take(segment, end, end))];
        CheckLinks(segments);
        var head = segments[^1] is { Damage: null } last
            ? new JournalPosition(last.Last, Chain(last.Chain))
            : new JournalPosition(segments[^1].Last, end.Hash);
        if (!taken.Passed && segments.All(segment => segment.Damage is null))
        {
            throw new BackupException(
                BackupTrouble.Damaged,
                $"What lies in {source.Folder.Segments} does not lead through the head {end} that the journal had when the backup began.",
                "Keep the data folder as it is, and see what is damaged with 'pupilbridge journal verify'. No backup was made."
            );
        }

        List<string> leftOut = ["examlog (it is made anew from the journal)", "access-keys (everybody signs in anew)"];
        var (files, isNew) = Files(shelf, head.Sequence, leftOut.Add);
        var catalogue = new Catalogue
        {
            Format = Catalogue.CurrentFormat,
            Number = (place.Numbers is [.., var latest] ? latest : 0) + 1,
            MadeAt = source.Time.GetUtcNow(),
            Program = source.Program,
            Envelope = envelope.Name,
            Sequence = head.Sequence,
            Chain = head.Hash.ToString(),
            Segments = segments,
            Files = files,
            LeftOut = leftOut,
        };
        PrivateFile.Replace(place.CatalogueOf(catalogue.Number), catalogue.ToJson());
        File.Delete(place.UnfinishedCatalogue);
        return new BackupMade(
            catalogue,
            taken.NewPieces + (isNew ? 1 : 0),
            taken.NewBytes + (isNew ? files.StoredBytes : 0),
            shelf.WentOn,
            store.CanOpen
        );
    }

    private JournalPosition EndOfFiles() =>
        JournalEnd.Read(source.Disk, source.Folder)?.Position
        ?? throw new BackupException(
            BackupTrouble.Missing,
            $"The journal in {source.Folder.Segments} is empty: there is nothing to back up.",
            "Start the service once with 'pupilbridge serve'."
        );

    /// <summary>The segments up to the head; one that was opened after the head was told is for the next backup.</summary>
    private IEnumerable<JournalSegment> Segments(JournalPosition end)
    {
        var all = JournalSegment.ListOf(source.Disk, source.Folder);
        return all.Take(1).Concat(all.Skip(1).Where(s => s.Start is null || s.Before.Sequence <= end.Sequence));
    }

    private void CheckLinks(SegmentPiece[] segments)
    {
        foreach (var (before, after) in segments.Zip(segments.Skip(1)))
        {
            var isBroken =
                before.Damage is null
                && after.Damage is null
                && (before.Last != after.Before || before.Chain != after.BeforeChain);
            if (isBroken)
            {
                throw new BackupException(
                    BackupTrouble.Damaged,
                    $"Segment {after.Number} of {source.Folder.Segments} does not follow on segment {before.Number}.",
                    "Keep the data folder as it is, and see what is damaged with 'pupilbridge journal verify'. No backup was made."
                );
            }
        }
    }

    private (Piece Files, bool IsNew) Files(PieceShelf shelf, long upTo, Action<string> leftOut)
    {
        var folder = source.Folder.DataFolder;
        // A head that was stamped a moment ago may be beyond the journal of this backup, and would look like an end that was cut off.
        string[] names =
        [
            .. HouseFiles.Names(folder, envelope.IsEncrypted, leftOut).Where(name => !StampFolder.IsBeyond(name, upTo)),
        ];
        using var measured = new MeasuredStream(Stream.Null, cancel);
        HouseFiles.Write(folder, names, measured);
        if (shelf.Files(NameOfFiles(measured.Sha256())) is { } known)
        {
            return (known, false);
        }

        var piece = store.Write(to => HouseFiles.Write(folder, names, to), NameOfFiles, cancel);
        if (store.CanOpen)
        {
            BackupCheck.Archive(store, piece, cancel);
        }
        else
        {
            store.Compare(piece, cancel);
        }

        shelf.Note(piece);
        return (piece, true);
    }

    private string NameOfFiles(string sha256) =>
        string.Create(CultureInfo.InvariantCulture, $"files-{sha256[..16]}.tar{store.Suffix}");

    private static ChainHash Chain(string digits) => ChainHash.TryParse(digits, out var chain) ? chain : default;
}
