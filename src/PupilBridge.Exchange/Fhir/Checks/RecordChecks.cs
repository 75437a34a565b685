using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>
/// Every size and judgement that counts stands in the bundle once, with its eye, light and value, and no other does: read from the
/// bundle's codes alone, not from its texts.
/// </summary>
/// <param name="record">The record.</param>
/// <param name="settings">The clinic's settings.</param>
internal sealed class RecordChecks(SignedRecord record, FhirSettings settings)
{
    private readonly string local = settings.CodeSystem("pupil-exam");

    public IEnumerable<string> Of(BundleContent content)
    {
        var wanted = Wanted().ToDictionary(w => w.What, w => w.Value, StringComparer.Ordinal);
        var said = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var observation in content.Observations.Where(o => o.Value is not null))
        {
            foreach (var (what, value) in Said(observation))
            {
                if (!said.TryAdd(what, value))
                {
                    yield return FhirWords.Of("Fault.Twice", what);
                }
            }
        }

        foreach (var (what, value) in wanted)
        {
            if (!said.TryGetValue(what, out var there))
            {
                yield return FhirWords.Of("Fault.Missing", what);
            }
            else if (there != value)
            {
                yield return FhirWords.Of("Fault.Differs", what, value, there);
            }
        }

        foreach (var what in said.Keys.Where(what => !wanted.ContainsKey(what)))
        {
            yield return FhirWords.Of("Fault.NotInRecord", what);
        }
    }

    private IEnumerable<(string What, string Value)> Wanted()
    {
        foreach (var size in record.Sizes.Where(s => s.Counts))
        {
            var what = $"pupil-diameter {size.Eye} {size.Light}";
            yield return (what, Length(size.DiameterMicrometres));
            yield return ($"{what} expanded-uncertainty", Length(size.ExpandedUncertaintyMicrometres));
            yield return ($"{what} scale-position-nasal", Length(size.Nasal.PositionMicrometres));
            yield return ($"{what} scale-position-temporal", Length(size.Temporal.PositionMicrometres));
            yield return ($"{what} calibration-state", size.IsCalibrated ? "calibrated" : "not-calibrated");
        }

        foreach (var judgement in record.Judgements.Where(j => j.Counts && j.Answer is not ("?" or "could-not-see")))
        {
            switch (judgement.Judged)
            {
                case "swinging":
                    break;
                case "shape":
                    yield return ($"pupil-shape {judgement.Eye}", judgement.Answer);
                    break;
                case "slow-to-dilate":
                    yield return ($"slow-to-dilate {judgement.Eye}", "seen");
                    break;
                default:
                    yield return ($"{judgement.Judged}-response {judgement.Eye}", judgement.Answer);
                    break;
            }
        }

        foreach (var dwell in record.Swinging.Dwells.Where(d => d.Finding is not (null or "could-not-see")))
        {
            yield return ($"swinging-dwell {dwell.Dwell}", dwell.Finding!);
        }
    }

    private IEnumerable<(string What, string Value)> Said(Observation observation)
    {
        var code = Code(observation.Code);
        var eye = Code(observation.BodySite)?.Replace("pupil-", "", StringComparison.Ordinal);
        switch (code)
        {
            case "pupil-diameter":
                var what = $"{code} {eye} {Code(Component(observation, "illumination") as CodeableConcept)}";
                yield return (what, Text(observation.Value));
                string[] parts =
                [
                    "expanded-uncertainty",
                    "scale-position-nasal",
                    "scale-position-temporal",
                    "calibration-state",
                ];
                foreach (var part in parts)
                {
                    yield return ($"{what} {part}", Text(Component(observation, part)));
                }

                break;
            case "pupil-shape" or "slow-to-dilate" or "direct-response" or "consensual-response" or "near-response":
                yield return ($"{code} {eye}", Text(observation.Value));
                break;
            case "swinging-dwell":
                yield return ($"{code} {BundleContent.KeyOf(observation).Split('/')[^1]}", Text(observation.Value));
                break;
            default:
                break;
        }
    }

    private DataType? Component(Observation observation, string code) =>
        observation.Component.FirstOrDefault(c => Code(c.Code) == code)?.Value;

    private string? Code(CodeableConcept? concept) => concept?.Coding.FirstOrDefault(c => c.System == local)?.Code;

    private string Text(DataType? value) =>
        value switch
        {
            Quantity quantity => quantity.Value?.ToString("0.###", CultureInfo.InvariantCulture) ?? "",
            CodeableConcept concept => Code(concept) ?? "",
            _ => "",
        };

    private static string Length(int micrometres) =>
        (micrometres / 1000m).ToString("0.###", CultureInfo.InvariantCulture);
}
