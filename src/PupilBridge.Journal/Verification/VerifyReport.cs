using System.Globalization;

namespace PupilBridge.Journal;

/// <summary>What reading the whole journal showed.</summary>
public sealed record VerifyReport
{
    /// <summary>How many segments make up the journal.</summary>
    public required int Segments { get; init; }

    /// <summary>How many records passed all checks.</summary>
    public required long Records { get; init; }

    /// <summary>How many of those are entries of callers.</summary>
    public required long Entries { get; init; }

    /// <summary>How many bytes were read.</summary>
    public required long Bytes { get; init; }

    /// <summary>How many of the records are encrypted.</summary>
    public long EncryptedRecords { get; init; }

    /// <summary>How many of the encrypted ones were opened with their key and are what was encrypted; none without master keys.</summary>
    public long OpenedRecords { get; init; }

    /// <summary>The last sound position: the head, to be written down elsewhere.</summary>
    public required JournalPosition Head { get; init; }

    /// <summary>Whether the last record is a clean-stop mark.</summary>
    public required bool EndsCleanly { get; init; }

    /// <summary>Whether a service held the data folder meanwhile; then the last batch may not have been durable yet.</summary>
    public required bool InUse { get; init; }

    /// <summary>All findings, in the order of the files.</summary>
    public required IReadOnlyList<JournalProblem> Problems { get; init; }

    /// <summary>Whether nothing that was durable is missing, unreadable or altered, as far as the files can tell.</summary>
    public bool IsSound => Problems.All(p => p.Severity < ProblemSeverity.Damage);

    /// <summary>One sentence for a person.</summary>
    public string Summary
    {
        get
        {
            int damage = Problems.Count(p => p.Severity == ProblemSeverity.Damage);
            string verdict = IsSound
                ? "The journal is sound"
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"The journal is DAMAGED in {damage} place{(damage == 1 ? "" : "s")}"
                );
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{verdict}: {Counted(Records, "record")} in {Counted(Segments, "segment")}, head {Head.Sequence}, chain {Head.Hash}.{Encryption}"
            );
        }
    }

    private string Encryption =>
        EncryptedRecords switch
        {
            0 => "",
            _ when OpenedRecords == 0 => string.Create(
                CultureInfo.InvariantCulture,
                $" {Counted(EncryptedRecords, "record")} of them encrypted and, for want of the master key, not opened."
            ),
            _ => string.Create(
                CultureInfo.InvariantCulture,
                $" {Counted(EncryptedRecords, "record")} of them encrypted, {OpenedRecords} opened."
            ),
        };

    private static string Counted(long number, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{number} {what}{(number == 1 ? "" : "s")}");
}
