using Hl7.Fhir.Model;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>
/// Whatever names a side in one observation names the same one: its codes, its body site in every code system, its identifier, and the
/// scale that measured it.
/// </summary>
/// <param name="settings">The clinic's settings.</param>
internal sealed class SideChecks(FhirSettings settings)
{
    private readonly string local = settings.CodeSystem("pupil-exam");
    private readonly Dictionary<(string?, string?), Eye> mapped = settings
        .Codes.All.Where(c => c.Side is not null)
        .ToDictionary(c => ((string?)c.System, (string?)c.Code), c => c.Side!.Value);

    public IEnumerable<string> Of(BundleContent content)
    {
        var scales = content
            .Bundle.Entry.Where(e => e.Resource is DeviceMetric)
            .ToLookup(
                e => e.FullUrl ?? "",
                e => InPath((e.Resource as DeviceMetric)?.Identifier.FirstOrDefault()?.Value ?? "")
            );
        foreach (var observation in content.Observations)
        {
            List<Eye?> sides =
            [
                .. Named(observation.Code),
                .. Named(observation.BodySite),
                InPath(BundleContent.KeyOf(observation)),
                .. scales[observation.Device?.Reference ?? ""],
            ];
            if (Named(observation.Value as CodeableConcept).Distinct().Count() > 1)
            {
                yield return FhirWords.Of("Fault.Sides", observation.Code?.Text);
            }

            if (sides.Where(s => s is not null).Distinct().Count() > 1 || !HasItsSide(observation, sides))
            {
                yield return FhirWords.Of("Fault.Sides", observation.Code?.Text);
            }

            foreach (var component in observation.Component)
            {
                if (Named(component.Value as CodeableConcept).Distinct().Count() > 1)
                {
                    yield return FhirWords.Of("Fault.Sides", observation.Code?.Text);
                }
            }
        }
    }

    // What is about one eye says so in its identifier; its body site must say it, too, and everything else must not.
    private bool HasItsSide(Observation observation, IEnumerable<Eye?> sides)
    {
        var isOfOne = InPath(BundleContent.KeyOf(observation)) is not null;
        var inSite = Named(observation.BodySite).Any();
        return isOfOne ? inSite : sides.All(s => s is null);
    }

    /// <summary>The sides that the codes of a concept name.</summary>
    public IEnumerable<Eye?> Named(CodeableConcept? concept)
    {
        foreach (var coding in concept?.Coding ?? [])
        {
            if (mapped.TryGetValue((coding.System, coding.Code), out var side))
            {
                yield return side;
            }
            else if (coding.System == local && Word(coding.Code) is { } eye)
            {
                yield return eye;
            }
        }
    }

    private static Eye? Word(string? code) =>
        code switch
        {
            "right" or "pupil-right" or "right-worse" => Eye.Right,
            "left" or "pupil-left" or "left-worse" => Eye.Left,
            _ => null,
        };

    private static Eye? InPath(string identifier)
    {
        var parts = identifier.Split('/');
        return parts.Contains("right") ? Eye.Right
            : parts.Contains("left") ? Eye.Left
            : null;
    }
}
