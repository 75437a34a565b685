using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Specification.Snapshot;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using PupilBridge.Exchange.Fhir;

namespace PupilBridge.FhirChecking;

/// <summary>
/// Firely's validator with the core definitions and ours, without a network. It takes seconds to make and must not be used by two
/// threads at once, so that all tests of a collection share one.
/// </summary>
public sealed class OfflineValidator
{
    private readonly Validator validator;

    /// <summary>Reads all definitions.</summary>
    /// <exception cref="InvalidOperationException">One of ours has no sense.</exception>
    public OfflineValidator()
    {
        var core = new CachedResolver(ZipSource.CreateValidationSource());
        Resource[] ours =
        [
            .. FhirDefinitions
                .Names.Where(n => n != "code-map.json")
                .Select(n => FhirJson.Read<Resource>(FhirDefinitions.Text(n))),
        ];
        var source = new CachedResolver(new MultiResolver(new InMemoryResourceResolver(ours), core));
        var generator = new SnapshotGenerator(source);
        // The core's snapshots come ready-made; ours are made here, what others build on first.
        foreach (
            var profile in ours.OfType<StructureDefinition>()
                .OrderBy(p => p.BaseDefinition!.StartsWith(FhirSettings.ExampleDefinitions, StringComparison.Ordinal))
        )
        {
            generator.UpdateAsync(profile).GetAwaiter().GetResult();
            if (generator.Outcome is { } wrong)
                throw new InvalidOperationException($"{profile.Url}: {wrong.Issue[0].Details?.Text}");
        }

        Profiles = [.. ours.OfType<StructureDefinition>().Select(p => p.Url!)];
        validator = new Validator(source, LocalTerminologyService.CreateDefaultForCore(source));
    }

    /// <summary>The addresses of our profiles.</summary>
    public IReadOnlyList<string> Profiles { get; }

    /// <summary>The errors and worse, in words.</summary>
    /// <param name="resource">What to look at.</param>
    /// <param name="profile">The profile to hold it against; null for those that it names itself.</param>
    public IReadOnlyList<string> Errors(Resource resource, string? profile = null) =>
        [
            .. validator
                .Validate(resource, profile)
                .Issue.Where(i =>
                    i.Severity is OperationOutcome.IssueSeverity.Error or OperationOutcome.IssueSeverity.Fatal
                )
                .Select(i => $"{i.Details?.Text} @ {string.Join(',', i.Expression)}"),
        ];
}
