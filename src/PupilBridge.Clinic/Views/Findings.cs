namespace PupilBridge.Clinic.Views;

/// <summary>What one criterion says of an exam. It is no diagnosis; "not met" excludes nothing.</summary>
public sealed record FindingView
{
    /// <summary>The criterion's id.</summary>
    public required string Criterion { get; init; }

    /// <summary><c>met</c>, <c>cannot-tell</c>, <c>not-met</c> or <c>not-examined</c>.</summary>
    public required string Verdict { get; init; }

    /// <summary>Why it cannot tell or was not examined, in a word; null elsewhere.</summary>
    public required string? Reason { get; init; }

    /// <summary><c>OD</c> or <c>OS</c>; null where it is about both, or names none.</summary>
    public required string? Eye { get; init; }

    /// <summary><c>bright</c> or <c>dim</c>; null for none.</summary>
    public required string? Light { get; init; }

    /// <summary>The block in a word; null for none.</summary>
    public required string? Block { get; init; }

    /// <summary>The value that was compared, in the unit; null if there is none.</summary>
    public required decimal? Value { get; init; }

    /// <summary>Its expanded uncertainty (k = 2), in the unit; null if it has none.</summary>
    public required decimal? ExpandedUncertainty { get; init; }

    /// <summary>The limit in use, in the unit; null if there is none.</summary>
    public required decimal? Limit { get; init; }

    /// <summary>The unit; null where there is no number.</summary>
    public required string? Unit { get; init; }

    /// <summary>The sentence.</summary>
    public required string Sentence { get; init; }

    /// <summary>The cautions that go with it; empty unless it is met.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>The criterion's sources; empty where it was not examined.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>The further look that the trade would take, with what to ask; empty where it was not met or not examined.</summary>
    public required string FurtherLook { get; init; }

    /// <summary>The readings behind it.</summary>
    public required IReadOnlyList<FindingRaw> Raw { get; init; }
}

/// <summary>A reading behind a finding.</summary>
/// <param name="Sequence">The journal sequence of the entry that holds it.</param>
public sealed record FindingRaw(long Sequence);
