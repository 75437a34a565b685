using Hl7.Fhir.Model;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>Our codes with their definitions as FHIR code systems; docs/fhir has their text.</summary>
public static class FhirCodeSystems
{
    /// <summary>Both code systems.</summary>
    /// <param name="settings">The clinic's settings.</param>
    public static IReadOnlyList<CodeSystem> All(FhirSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return
        [
            Make(
                settings,
                "pupil-exam",
                "Pupil exam",
                "What is measured and judged of pupils, and the answers, where no public code was seen.",
                LocalCodes.All
            ),
            Make(
                settings,
                "pupil-criteria",
                "Pupil criteria",
                "The criteria that are held against a pupil exam. None is a diagnosis; docs/criteria.md has limits and sources.",
                CriteriaCatalogue.All.Select(c => new LocalCode(c.Id, c.Id.Replace('-', ' '), Definition(c)))
            ),
        ];
    }

    // What stands in braces is filled in from one exam; a definition speaks of all.
    private static string Definition(Criterion criterion) =>
        $"Whether {criterion.Asks}."
            .Replace("{eye}", "an eye", StringComparison.Ordinal)
            .Replace("{fellow}", "its fellow", StringComparison.Ordinal)
            .Replace("{light}", "one", StringComparison.Ordinal)
            .Replace("{detail}", "", StringComparison.Ordinal)
            .Replace("the {block} block", "one block", StringComparison.Ordinal)
            .Replace("the {word} dwell", "one dwell", StringComparison.Ordinal)
            .Replace("{limit} mm", "the limit", StringComparison.Ordinal)
            .Replace("{limit}", "the limit", StringComparison.Ordinal);

    private static CodeSystem Make(
        FhirSettings settings,
        string name,
        string title,
        string description,
        IEnumerable<LocalCode> codes
    ) =>
        new()
        {
            Id = name,
            Url = settings.CodeSystem(name),
            Version = "1.0.0",
            Name = string.Concat(title.Split(' ').Select(w => char.ToUpperInvariant(w[0]) + w[1..])),
            Title = title,
            Status = PublicationStatus.Active,
            Experimental = false,
            Publisher = "PupilBridge contributors",
            Description = description,
            CaseSensitive = true,
            Content = CodeSystemContentMode.Complete,
            Concept =
            [
                .. codes.Select(c => new CodeSystem.ConceptDefinitionComponent
                {
                    Code = c.Code,
                    Display = c.Display,
                    Definition = c.Definition,
                }),
            ],
        };
}
