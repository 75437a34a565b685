using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Records;

/// <summary>
/// What one criterion said when the record was made. Numbers stand as decimal text with a point. A member that says nothing is left
/// out of the text.
/// </summary>
public sealed record RecordFinding
{
    /// <summary>The criterion's id.</summary>
    public required string Criterion { get; init; }

    /// <summary><c>met</c>, <c>not-met</c>, <c>cannot-tell</c> or <c>not-examined</c>.</summary>
    public required string Verdict { get; init; }

    /// <summary>Why it cannot tell or was not examined, in a word; null elsewhere.</summary>
    public string? Reason { get; init; }

    /// <summary>The eye that it is about: <c>right</c> or <c>left</c>; null where it is about both, or names none.</summary>
    public string? Eye { get; init; }

    /// <summary>The light that it is about: <c>bright</c> or <c>dim</c>; null for none.</summary>
    public string? Light { get; init; }

    /// <summary>The block that it is about; null for none.</summary>
    public string? Block { get; init; }

    /// <summary>The value that was compared; null if there is none.</summary>
    public string? Value { get; init; }

    /// <summary>The value's expanded uncertainty (k = 2); null if it has none.</summary>
    public string? ExpandedUncertainty { get; init; }

    /// <summary>The limit that was in use; null if there is none.</summary>
    public string? Limit { get; init; }

    /// <summary>The unit of value, uncertainty and limit; null if there is none of them, or they have none.</summary>
    public string? Unit { get; init; }

    /// <summary>The sentence for a person.</summary>
    public required string Sentence { get; init; }

    /// <summary>The cautions that go with it; empty unless it is met.</summary>
    public ValueList<string> Cautions { get; init; }

    /// <summary>The sources of the criterion; empty where it was not examined, since nothing was held against them.</summary>
    public ValueList<string> Sources { get; init; }

    /// <summary>The further look that the trade would take, with what to ask; empty where it was not met or not examined.</summary>
    public string FurtherLook { get; init; } = "";
}
