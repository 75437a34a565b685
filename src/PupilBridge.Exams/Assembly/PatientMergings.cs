using System.Collections.Immutable;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly;

/// <summary>A merging that stands: one number goes on for the person that another number stood for.</summary>
/// <param name="Entry">The entry that merged them; taking it back names it.</param>
/// <param name="Sequence">Where that entry stands in the journal.</param>
/// <param name="Who">Who merged them.</param>
/// <param name="At">When.</param>
/// <param name="Kept">The number that goes on.</param>
/// <param name="Merged">The number that is not to be used any more.</param>
public sealed record PatientMerging(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    PatientId Kept,
    PatientId Merged
);

/// <summary>Why two numbers cannot be merged.</summary>
public enum MergingObstacle
{
    /// <summary>It is one and the same number.</summary>
    WithItself = 1,

    /// <summary>The number that is to go is merged into another one already.</summary>
    GoneAlready = 2,

    /// <summary>The number that is to go on is itself merged into another one: it would be a chain, or a circle.</summary>
    KeptIsGone = 3,

    /// <summary>Other numbers are merged into the one that is to go: it would be a chain.</summary>
    OthersLeadHere = 4,
}

/// <summary>
/// The person behind a number, by the mergings that stand. A number is merged into one other at most and that one into none, so that the
/// answer is always one step away and never depends on the order in which mergings were made. A value: it never changes.
/// </summary>
public sealed class PatientMergings : IEquatable<PatientMergings>
{
    private readonly ImmutableSortedDictionary<string, PatientMerging> byMerged;

    private PatientMergings(ImmutableSortedDictionary<string, PatientMerging> byMerged) => this.byMerged = byMerged;

    /// <summary>No merging at all.</summary>
    public static PatientMergings None { get; } =
        new(ImmutableSortedDictionary.Create<string, PatientMerging>(StringComparer.Ordinal));

    /// <summary>All that stand, by the number that is not to be used any more.</summary>
    public IEnumerable<PatientMerging> All => byMerged.Values;

    /// <summary>Mergings that stand together.</summary>
    /// <param name="mergings">What <see cref="All"/> gave.</param>
    public static PatientMergings Of(IEnumerable<PatientMerging> mergings) =>
        new(None.byMerged.AddRange(mergings.Select(one => KeyValuePair.Create(one.Merged.Value, one))));

    /// <summary>The merging by which a number is not to be used any more.</summary>
    /// <param name="merged">The number.</param>
    /// <returns>Null for a number that is merged into none.</returns>
    public PatientMerging? Of(PatientId merged) => byMerged.GetValueOrDefault(merged.Value);

    /// <summary>The merging that an entry made.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>Null if it was taken back, or there is none.</returns>
    public PatientMerging? MadeBy(EntryId entry) => byMerged.Values.FirstOrDefault(one => one.Entry == entry);

    /// <summary>The number that goes on for the person behind a number; the number itself where it is merged into none.</summary>
    /// <param name="number">Any number.</param>
    public PatientId Surviving(PatientId number) => Of(number)?.Kept ?? number;

    /// <summary>The mergings into a number.</summary>
    /// <param name="kept">The number that goes on.</param>
    public IEnumerable<PatientMerging> Into(PatientId kept) => byMerged.Values.Where(one => one.Kept == kept);

    /// <summary>All numbers of the person behind a number: the one that goes on first, the others in the order of their characters.</summary>
    /// <param name="number">Any of them.</param>
    public IReadOnlyList<PatientId> NumbersOf(PatientId number)
    {
        var surviving = Surviving(number);
        return [surviving, .. Into(surviving).Select(one => one.Merged)];
    }

    /// <summary>Why two numbers cannot be merged as things stand.</summary>
    /// <param name="kept">The number that is to go on.</param>
    /// <param name="merged">The number that is to go.</param>
    /// <returns>Null if they can.</returns>
    public MergingObstacle? WhyNot(PatientId kept, PatientId merged) =>
        kept == merged ? MergingObstacle.WithItself
        : Of(merged) is not null ? MergingObstacle.GoneAlready
        : Of(kept) is not null ? MergingObstacle.KeptIsGone
        : Into(merged).Any() ? MergingObstacle.OthersLeadHere
        : null;

    /// <inheritdoc/>
    public bool Equals(PatientMergings? other) => other is not null && All.SequenceEqual(other.All);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as PatientMergings);

    /// <inheritdoc/>
    public override int GetHashCode() => byMerged.Count;

    internal PatientMergings With(PatientMerging merging) => new(byMerged.Add(merging.Merged.Value, merging));

    internal PatientMergings Without(PatientMerging merging) => new(byMerged.Remove(merging.Merged.Value));
}
