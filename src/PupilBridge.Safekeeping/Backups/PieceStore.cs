using PupilBridge.Journal;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>Writes and reads the pieces of a destination.</summary>
/// <param name="place">The destination.</param>
/// <param name="envelope">How pieces are sealed.</param>
internal sealed class PieceStore(BackupPlace place, Envelope envelope)
{
    private const int BufferBytes = 1 << 20;

    /// <summary>Whether pieces can be opened here.</summary>
    public bool CanOpen => envelope.CanOpen;

    /// <summary>What a piece's name ends with.</summary>
    public string Suffix => envelope.Suffix;

    /// <summary>Writes a piece; it has its name when it is complete and on the disk.</summary>
    /// <param name="fill">Writes the content.</param>
    /// <param name="nameOf">The name, once SHA-256 of the content is known.</param>
    /// <param name="cancel">Gives up; nothing is left.</param>
    /// <exception cref="BackupException">It cannot be written.</exception>
    public Piece Write(Action<Stream> fill, Func<string, string> nameOf, CancellationToken cancel)
    {
        PrivateFile.MakeFolder(place.Pieces);
        var part = Path.Combine(place.Pieces, "piece" + BackupPlace.Unfinished);
        try
        {
            var written = WriteTo(part, fill, cancel);
            var piece = written with { File = nameOf(written.Sha256) };
            File.Move(part, place.PathOf(piece), overwrite: true);
            RealDisk.Instance.SyncFolder(place.Pieces);
            return piece;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new BackupException(
                BackupTrouble.Storage,
                $"A piece could not be written to {place.Pieces}: {fault.Message}",
                "Make room there, or see to its permissions, and run the command again: it goes on where it stopped. Complete "
                    + "backups of this destination stay as they are.",
                fault
            );
        }
        finally
        {
            File.Delete(part);
        }
    }

    /// <summary>Compares a piece as it lies there with what the catalogue says of it.</summary>
    /// <exception cref="BackupException">It is missing, cut, or altered.</exception>
    public void Compare(Piece piece, CancellationToken cancel)
    {
        var path = place.PathOf(piece);
        if (!File.Exists(path))
        {
            throw Broken(BackupTrouble.Damaged, piece, "is missing");
        }

        using var file = File.OpenRead(path);
        if (file.Length != piece.StoredBytes)
        {
            throw Broken(BackupTrouble.Damaged, piece, $"has {file.Length} bytes instead of {piece.StoredBytes}");
        }

        using var measured = new MeasuredStream(file, cancel);
        measured.CopyTo(Stream.Null, BufferBytes);
        if (measured.Sha256() != piece.StoredSha256)
        {
            throw Broken(BackupTrouble.Damaged, piece, "was altered");
        }
    }

    /// <summary>Whether a piece lies there in the right length; its bytes are not read.</summary>
    public bool Has(Piece piece) =>
        new FileInfo(place.PathOf(piece)) is { Exists: true } file && file.Length == piece.StoredBytes;

    /// <summary>Compares a piece, opens it, and reads it to its end.</summary>
    /// <param name="piece">Which one.</param>
    /// <param name="read">Reads the content, as far as it wants to.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="BackupException">It is missing, cut, altered, sealed for another, or does not hold what it must.</exception>
    public T Read<T>(Piece piece, Func<Stream, T> read, CancellationToken cancel)
    {
        Compare(piece, cancel);
        using var file = new FileStream(
            place.PathOf(piece),
            FileMode.Open,
            FileAccess.Read,
            FileShare.Read,
            BufferBytes
        );
        try
        {
            using var opened = envelope.Open(file);
            using var measured = new MeasuredStream(opened, cancel);
            var result = read(measured);
            measured.CopyTo(Stream.Null, BufferBytes);
            return measured.Count == piece.Bytes && measured.Sha256() == piece.Sha256
                ? result
                : throw Broken(BackupTrouble.Damaged, piece, "holds other content than the catalogue says");
        }
        catch (WrongKeyException fault)
        {
            throw Broken(BackupTrouble.WrongKey, piece, $"cannot be opened: {fault.Message}", fault);
        }
        catch (BrokenSealException fault)
        {
            throw Broken(BackupTrouble.Damaged, piece, $"cannot be opened: {fault.Message}", fault);
        }
        catch (SegmentBrokenException fault)
        {
            throw Broken(BackupTrouble.Damaged, piece, $"is no sound part of the journal: {fault.Message}", fault);
        }
    }

    /// <summary>What is wrong with a piece, and what to do.</summary>
    public BackupException Broken(BackupTrouble trouble, Piece piece, string how, Exception? cause = null) =>
        new(
            trouble,
            $"The piece {piece.File} of the backup in {place.Folder} {how}.",
            trouble == BackupTrouble.WrongKey
                ? "Give the pass phrase, or the private key, with which this backup was made."
                : "Put it back from another copy of this destination, or use an earlier backup ('pupilbridge backup list'). While the "
                    + "clinic's own data folder is sound, a new backup to another folder is whole again.",
            cause
        );

    private Piece WriteTo(string path, Action<Stream> fill, CancellationToken cancel)
    {
        File.Delete(path);
        using var file = PrivateFile.Make(path);
        using var stored = new MeasuredStream(file, cancel);
        using var content = new SealedContent(envelope.Seal(stored));
        fill(content.Measured);
        content.Complete();
        file.Flush(flushToDisk: true);
        return new Piece("", content.Measured.Count, content.Measured.Sha256(), stored.Count, stored.Sha256());
    }

    /// <summary>The content on its way into the envelope; if it is given up, the envelope is not completed.</summary>
    private sealed class SealedContent(Stream envelope) : IDisposable
    {
        public MeasuredStream Measured { get; } = new(envelope);

        public void Complete() => envelope.Dispose();

        public void Dispose() => Measured.Dispose();
    }
}
