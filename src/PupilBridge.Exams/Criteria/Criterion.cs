using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Criteria;

/// <summary>
/// One criterion, as data: what it reads, against which limit, from which source, and what it says. It never diagnoses; the words
/// are checked by a test. Braces in a text stand for values of the finding: <c>{eye}</c>, <c>{fellow}</c>, <c>{light}</c>,
/// <c>{value}</c>, <c>{u}</c>, <c>{limit}</c>, <c>{detail}</c>.
/// </summary>
public sealed record Criterion
{
    /// <summary>Its name for programs and documents: lower case with hyphens, never changed.</summary>
    public required string Id { get; init; }

    /// <summary>What it is about.</summary>
    public required CriterionKind Kind { get; init; }

    /// <summary>What it reads.</summary>
    public required ValueList<string> Reads { get; init; }

    /// <summary>Its limit with the default and where that comes from; null where there is none.</summary>
    public required PublishedLimit? Limit { get; init; }

    /// <summary>The unit of its values and its limit: <c>mm</c>, <c>s</c>, <c>day</c>, <c>grade</c>, …; null where it has neither.</summary>
    public string? Unit
    {
        get => field ?? Limit?.Unit;
        init;
    }

    /// <summary>The published sources; one that is common practice, from memory, or ours says so.</summary>
    public required ValueList<string> Sources { get; init; }

    /// <summary>What it asks, as what follows "whether".</summary>
    public required string Asks { get; init; }

    /// <summary>The sentence where it is met.</summary>
    public required string WhenMet { get; init; }

    /// <summary>The sentence where it is not met; it reassures of nothing.</summary>
    public required string WhenNotMet { get; init; }

    /// <summary>The caution that goes with it where it is met; empty for none.</summary>
    public required string Caution { get; init; }

    /// <summary>What belongs to be asked or looked at beside it; often none.</summary>
    public ValueList<string> Questions { get; init; }

    /// <summary>The further look that the trade would take.</summary>
    public required string FurtherLook { get; init; }
}

/// <summary>A limit with its default.</summary>
/// <param name="Default">The default, in the unit.</param>
/// <param name="Unit">The unit: <c>mm</c>, <c>s</c>, <c>day</c>, <c>grade</c>.</param>
/// <param name="Origin">Who published the default, or that it is ours.</param>
/// <param name="Setting">The member of <see cref="CriteriaLimits"/> that changes it.</param>
public sealed record PublishedLimit(double Default, string Unit, string Origin, string Setting);
