using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.Entries;

/// <summary>What became of something a person entered.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "outcome")]
[JsonDerivedType(typeof(Recorded), "recorded")]
[JsonDerivedType(typeof(AlreadyRecorded), "alreadyRecorded")]
[JsonDerivedType(typeof(Refused), "refused")]
public abstract record EntryOutcome
{
    private protected EntryOutcome() { }

    /// <summary>It is on disk.</summary>
    /// <param name="Sequence">Its place in the journal.</param>
    /// <param name="Exam">The exam that it opened or belongs to; null if to none.</param>
    public sealed record Recorded(long Sequence, long? Exam) : EntryOutcome
    {
        /// <summary>What the person should know all the same, such as that it does not count; null for nothing.</summary>
        public string? Notice { get; init; }
    }

    /// <summary>The same entry had been recorded before; this copy was dropped.</summary>
    /// <param name="Sequence">The place of the first copy in the journal.</param>
    /// <param name="Exam">The exam that it opened or belongs to; null if to none.</param>
    public sealed record AlreadyRecorded(long Sequence, long? Exam) : EntryOutcome;

    /// <summary>It was not taken and nothing was recorded.</summary>
    /// <param name="Reason">What is in the way, for the person who entered it.</param>
    /// <param name="NextStep">What to do next.</param>
    public sealed record Refused(string Reason, string NextStep) : EntryOutcome;
}
