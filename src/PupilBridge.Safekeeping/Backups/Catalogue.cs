using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// What one backup consists of. It names its pieces, which backups of one destination share; it holds no data of patients and is not
/// sealed, so that a backup can be listed and its pieces be compared without the pass phrase.
/// </summary>
public sealed record Catalogue
{
    /// <summary>The format that this program writes.</summary>
    public const int CurrentFormat = 1;

    private static readonly JsonSerializerOptions Written = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        NewLine = "\n",
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
    };

    /// <summary>The catalogue's format.</summary>
    public required int Format { get; init; }

    /// <summary>The backup's number, from 1, in its destination.</summary>
    public required int Number { get; init; }

    /// <summary>When it was made.</summary>
    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>The program and its version.</summary>
    public required string Program { get; init; }

    /// <summary>How its pieces are sealed.</summary>
    public required string Envelope { get; init; }

    /// <summary>The last sequence of the journal in it.</summary>
    public required long Sequence { get; init; }

    /// <summary>The chain's value there, 64 hexadecimal digits.</summary>
    public required string Chain { get; init; }

    /// <summary>The journal's segments, in order.</summary>
    public required IReadOnlyList<SegmentPiece> Segments { get; init; }

    /// <summary>The other files of the data folder, as one tar archive.</summary>
    public required Piece Files { get; init; }

    /// <summary>What is not in it, for a person.</summary>
    public required IReadOnlyList<string> LeftOut { get; init; }

    /// <summary>The head of the journal in it.</summary>
    [JsonIgnore]
    public JournalPosition Head => new(Sequence, ChainHash.TryParse(Chain, out var chain) ? chain : default);

    /// <summary>All its pieces.</summary>
    [JsonIgnore]
    public IEnumerable<Piece> Pieces => Segments.Select(segment => segment.Piece).Append(Files);

    /// <summary>The catalogue as it is written.</summary>
    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Written);

    /// <summary>Reads a catalogue.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="BackupException">It is damaged, or of a newer format.</exception>
    public static Catalogue Read(string path)
    {
        Catalogue? read;
        try
        {
            read = JsonSerializer.Deserialize<Catalogue>(File.ReadAllBytes(path), Written);
        }
        catch (JsonException fault)
        {
            throw new BackupException(
                BackupTrouble.Damaged,
                $"The catalogue {path} is damaged: {fault.Message}",
                "Use another backup of this destination ('pupilbridge backup list'), or another copy of the destination.",
                fault
            );
        }

        return read is { Format: > CurrentFormat }
                ? throw new BackupException(
                    BackupTrouble.Refused,
                    $"The catalogue {path} has format {read.Format}; this program knows {CurrentFormat}.",
                    "Use the version of the program that wrote it, or a newer one."
                )
            : read is null || read.Segments.Count == 0 || !ChainHash.TryParse(read.Chain, out _)
                ? throw new BackupException(
                    BackupTrouble.Damaged,
                    $"The catalogue {path} is damaged: it names no journal.",
                    "Use another backup of this destination, or another copy of the destination."
                )
            : read;
    }
}

/// <summary>One file of a destination.</summary>
/// <param name="File">Its name.</param>
/// <param name="Bytes">The length of its content.</param>
/// <param name="Sha256">SHA-256 of its content.</param>
/// <param name="StoredBytes">Its length as it lies there, sealed.</param>
/// <param name="StoredSha256">SHA-256 of it as it lies there.</param>
public sealed record Piece(string File, long Bytes, string Sha256, long StoredBytes, string StoredSha256);

/// <summary>A segment of the journal in a backup.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Piece">The file.</param>
/// <param name="Before">The last sequence before it.</param>
/// <param name="BeforeChain">The chain's value there.</param>
/// <param name="Last">The last sequence in it.</param>
/// <param name="Chain">The chain's value there; empty where it is damaged.</param>
/// <param name="IsClosed">Whether it is whole; a later backup has more of one that is not.</param>
/// <param name="Damage">What is wrong with the segment itself, which lies in the backup as it was; null for nothing.</param>
public sealed record SegmentPiece(
    long Number,
    Piece Piece,
    long Before,
    string BeforeChain,
    long Last,
    string Chain,
    bool IsClosed,
    string? Damage
);
