namespace PupilBridge.Journal;

/// <summary>How bad a finding about the journal is.</summary>
public enum ProblemSeverity
{
    /// <summary>Worth knowing; nothing that was acknowledged is affected.</summary>
    Remark = 0,

    /// <summary>Something that was durable is missing, unreadable or altered.</summary>
    Damage = 1,
}

/// <summary>What was found.</summary>
public enum ProblemKind
{
    /// <summary>Not set.</summary>
    None = 0,

    /// <summary>Bytes of an unfinished write at the end of a segment.</summary>
    TornTail,

    /// <summary>A file with bytes that were set aside.</summary>
    SetAside,

    /// <summary>A segment that was abandoned before its first record was durable, or an unfinished one.</summary>
    AbandonedSegment,

    /// <summary>Records are missing, unreadable, altered or out of order.</summary>
    DamagedRecords,

    /// <summary>A segment's header is unreadable or altered.</summary>
    DamagedHeader,

    /// <summary>A segment that another one names is not there.</summary>
    MissingSegment,

    /// <summary>A segment does not follow from the one before it.</summary>
    BrokenLink,

    /// <summary>The journal does not lead to the head that was written down elsewhere.</summary>
    OtherHead,

    /// <summary>A file cannot be read.</summary>
    Unreadable,

    /// <summary>The key of an encrypted segment is missing, damaged, or cannot be opened with the keys at hand.</summary>
    MissingKey,

    /// <summary>
    /// A segment stands in the clear after an encrypted one, and no record under the key says that the journal goes on in the clear.
    /// </summary>
    ClearUnannounced,

    /// <summary>Of a notice only: the journal goes on in the clear from the next segment on, by setting.</summary>
    GoesOnInTheClear,
}

/// <summary>One finding about the journal, for a person.</summary>
public sealed record JournalProblem
{
    /// <summary>What was found.</summary>
    public required ProblemKind Kind { get; init; }

    /// <summary>How bad it is.</summary>
    public required ProblemSeverity Severity { get; init; }

    /// <summary>The file's name.</summary>
    public required string File { get; init; }

    /// <summary>Where in the file, in bytes from its start.</summary>
    public long Offset { get; init; }

    /// <summary>The first sequence concerned, 0 when none is.</summary>
    public long FirstSequence { get; init; }

    /// <summary>The last sequence concerned, 0 when none is.</summary>
    public long LastSequence { get; init; }

    /// <summary>What it means.</summary>
    public required string Meaning { get; init; }

    /// <summary>What to do.</summary>
    public required string Advice { get; init; }

    /// <inheritdoc/>
    public override string ToString()
    {
        string sequences = FirstSequence == 0 ? "" : $", sequence {FirstSequence} to {LastSequence}";
        return $"{File} at byte {Offset}{sequences}: {Meaning} {Advice}";
    }

    internal const string Restore =
        "Leave the file as it is, copy the data folder to another disk, check this disk, and compare with a backup.";

    internal static JournalProblem DamagedHeader(string file) =>
        new()
        {
            Kind = ProblemKind.DamagedHeader,
            Severity = ProblemSeverity.Damage,
            File = file,
            Meaning =
                "The segment's header is unreadable or altered; its records are still read, but not proved to follow.",
            Advice = Restore,
        };

    internal static JournalProblem MissingSegment(string file, string namedBy) =>
        new()
        {
            Kind = ProblemKind.MissingSegment,
            Severity = ProblemSeverity.Damage,
            File = file,
            Meaning = $"The segment is not there, though {namedBy} follows from it.",
            Advice = "Put it back from a backup; its records are missing meanwhile.",
        };

    internal static JournalProblem Damaged(string file, SegmentDamage damage)
    {
        bool missing = damage.LastMissing >= damage.FirstMissing;
        return new()
        {
            Kind = ProblemKind.DamagedRecords,
            Severity = ProblemSeverity.Damage,
            File = file,
            Offset = damage.Offset,
            FirstSequence = damage.FirstMissing,
            LastSequence = missing ? damage.LastMissing : damage.FirstMissing,
            Meaning = missing
                ? $"Records that were durable are missing, unreadable or altered up to byte {damage.EndOffset}."
                : "The record before this place, or the chain between them, was altered, or a record was put in here.",
            Advice = Restore,
        };
    }

    internal static JournalProblem UnreadablePlace(string file, long offset) =>
        new()
        {
            Kind = ProblemKind.Unreadable,
            Severity = ProblemSeverity.Damage,
            File = file,
            Offset = offset,
            Meaning = "The disk cannot read this place, and perhaps others after it.",
            Advice = "The disk is failing: copy the data folder to another one now, and compare with a backup.",
        };

    internal static JournalProblem DoesNotOpen(string file, long offset, long sequence) =>
        new()
        {
            Kind = ProblemKind.DamagedRecords,
            Severity = ProblemSeverity.Damage,
            File = file,
            Offset = offset,
            FirstSequence = sequence,
            LastSequence = sequence,
            Meaning =
                "The record is not what was encrypted under this segment's key, though it stands in its place in the chain.",
            Advice = Restore,
        };

    internal static JournalProblem NoKey(string file, string meaning) =>
        new()
        {
            Kind = ProblemKind.MissingKey,
            Severity = ProblemSeverity.Damage,
            File = file,
            Meaning = meaning,
            Advice = "Put the file back from a backup of the journal's folder, or the key file from where it is kept.",
        };

    /// <summary>What is to be said of a segment in the clear, where anything is.</summary>
    /// <param name="file">The first segment in the clear.</param>
    /// <param name="standing">What stands before it under the key.</param>
    internal static JournalProblem? InTheClear(string file, ClearStanding standing) =>
        standing switch
        {
            ClearStanding.Unannounced => new()
            {
                Kind = ProblemKind.ClearUnannounced,
                Severity = ProblemSeverity.Damage,
                File = file,
                Meaning =
                    "The segment stands in the clear after an encrypted one, and no record under the key says that the journal goes on in the "
                    + "clear: this program did not write it so. Somebody put it there, perhaps in place of an encrypted one, or an older version "
                    + "of the program ran with encryption off. The same holds for segments in the clear right after it.",
                Advice =
                    "If nobody ran an older version then, keep this folder, compare with the backups from that time on, and take no exam that "
                    + "stands in these segments alone for examined.",
            },
            ClearStanding.FromBeforeNotices => new()
            {
                Kind = ProblemKind.ClearUnannounced,
                Severity = ProblemSeverity.Remark,
                File = file,
                Meaning =
                    "The segment stands in the clear after an encrypted one that was written by a version of the program that left no word under the "
                    + "key when encryption was switched off. So the key cannot say whether it was.",
                Advice = "Nothing to do if it was switched off then; else compare with the backups from that time on.",
            },
            ClearStanding.CannotBeTold => new()
            {
                Kind = ProblemKind.ClearUnannounced,
                Severity = ProblemSeverity.Remark,
                File = file,
                Meaning =
                    "The segment stands in the clear after an encrypted one. Whether a record under the key says so cannot be told: it is damaged, or "
                    + "the key is not at hand.",
                Advice = "Verify with the master key, or compare with a backup.",
            },
            _ => null,
        };

    internal static JournalProblem FormNotTold(string file) =>
        new()
        {
            Kind = ProblemKind.MissingKey,
            Severity = ProblemSeverity.Remark,
            File = file,
            Meaning =
                "The segment's header is damaged, no key lies beside it, and nothing says whether its records are encrypted: they are read as if they "
                + "were not.",
            Advice =
                "If entries of this segment make no sense, put its key file back from a backup of the journal's folder.",
        };

    internal static JournalProblem HalfKey(string file) =>
        new()
        {
            Kind = ProblemKind.MissingKey,
            Severity = ProblemSeverity.Remark,
            File = file,
            Meaning = "One of the two copies of the segment's key is not as it was written; the other one is sound.",
            Advice = "Check this disk; 'pupilbridge protection rotate' writes both copies anew.",
        };

    internal static JournalProblem Torn(string file, long offset, long bytes) =>
        new()
        {
            Kind = ProblemKind.TornTail,
            Severity = ProblemSeverity.Remark,
            File = file,
            Offset = offset,
            Meaning = $"{bytes} bytes of a write that was not finished; nothing in them was acknowledged.",
            Advice = "Nothing to do: the next start sets them aside.",
        };
}
