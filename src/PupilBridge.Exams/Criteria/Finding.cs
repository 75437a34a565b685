using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria;

/// <summary>What one criterion says of an exam, for one eye, light or block where it is about one.</summary>
public sealed record Finding
{
    /// <summary>The criterion's id; <see cref="CriteriaCatalogue.Find"/> has the rest of it.</summary>
    public required string Criterion { get; init; }

    /// <summary>What it says.</summary>
    public required CriterionVerdict Verdict { get; init; }

    /// <summary>Why it cannot tell or was not examined; none elsewhere.</summary>
    public FindingReason Reason { get; init; }

    /// <summary>The eye that it is about; null where it is about both, or names none.</summary>
    public Eye? Eye { get; init; }

    /// <summary>The light that it is about, if one.</summary>
    public RoomLight? Light { get; init; }

    /// <summary>The block that it is about; none where it is about none.</summary>
    public Block Block { get; init; }

    /// <summary>The value that was compared, in the criterion's unit; null if there is none.</summary>
    public double? Value { get; init; }

    /// <summary>The value's expanded uncertainty (k = 2), in the same unit; null if it has none.</summary>
    public double? ExpandedUncertainty { get; init; }

    /// <summary>The limit in use, in the same unit; null if there is none.</summary>
    public double? Limit { get; init; }

    /// <summary>More in words, as it stands in the sentence; may be empty.</summary>
    public string Detail { get; init; } = "";

    /// <summary>The sentence for a person.</summary>
    public string Sentence { get; init; } = "";

    /// <summary>The cautions that go with it here; empty unless something was found.</summary>
    public ValueList<string> Cautions { get; init; }
}
