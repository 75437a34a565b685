using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>One observation for each eye and light, and one for the difference in each light.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
/// <param name="devices">The scales.</param>
internal sealed class SizeObservations(RecordBundle bundle, ObservationMaker maker, Devices devices)
{
    private static readonly string[] Lights = ["bright", "dim"];

    public IEnumerable<ResourceReference> Add()
    {
        foreach (var light in Lights)
        {
            var right = Find(Eye.Right, light);
            var left = Find(Eye.Left, light);
            var (ofRight, ofLeft) = (Add(Eye.Right, light, right), Add(Eye.Left, light, left));
            yield return ofRight;
            yield return ofLeft;
            yield return Difference(light, right, left, ofRight, ofLeft);
        }
    }

    private RecordSize? Find(Eye eye, string light) =>
        bundle.Record.Sizes.FirstOrDefault(s => s.Counts && s.Eye == Concepts.Word(eye) && s.Light == light);

    private ResourceReference Add(Eye eye, string light, RecordSize? size)
    {
        var text = FhirWords.Of("Size", FhirWords.Of($"Eye.{eye}"), FhirWords.Of($"Light.{light}"));
        var observation = maker.Make(
            "pupil-diameter",
            $"diameter/{Concepts.Word(eye)}/{light}",
            bundle.Concepts.Of("pupil-diameter", eye, text),
            size is null ? null : Later(size)
        );
        observation.BodySite = bundle.Concepts.Pupil(eye);
        observation.Device = devices.Scale(eye);
        if (size is null)
        {
            observation.DataAbsentReason = maker.Absent($"sizes-{light}", eye);
            maker.Surroundings(observation, light, null);
            return maker.Add(observation);
        }

        observation.Performer = bundle.People(bundle.Record.Opened.Who);
        observation.Value = Concepts.Millimetres(size.DiameterMicrometres);
        maker.Surroundings(observation, light, size.Fixation);
        Readings(observation, size);
        observation.Note = [.. BenchNotes.Calibration(bundle.Record, size)];
        return maker.Add(observation);
    }

    private void Readings(Observation observation, RecordSize size)
    {
        void Length(string code, int micrometres) =>
            maker.Component(observation, code, Concepts.Millimetres(micrometres));
        Length("expanded-uncertainty", size.ExpandedUncertaintyMicrometres);
        Length("scale-position-nasal", size.Nasal.PositionMicrometres);
        Length("scale-position-temporal", size.Temporal.PositionMicrometres);
        Length("raw-difference", size.RawMicrometres);
        Length("scale-resolution", size.ResolutionMicrometres);
        maker.Component(observation, "capture-manner", bundle.Concepts.Of(size.Manner));
        var state = bundle.Concepts.Of(size.IsCalibrated ? "calibrated" : "not-calibrated");
        maker.Component(observation, "calibration-state", state);
        maker.Component(observation, "doubtful", new FhirBoolean(size.IsDoubtful));
        if (size.Millilux is { } millilux)
        {
            maker.Component(observation, "illuminance", Concepts.Quantity(millilux / 1000m, "lx"));
        }

        if (size.DarkMilliseconds is { } dark)
        {
            maker.Component(observation, "dark-time", Concepts.Quantity(dark / 1000m, "s"));
        }
    }

    private ResourceReference Difference(
        string light,
        RecordSize? right,
        RecordSize? left,
        ResourceReference ofRight,
        ResourceReference ofLeft
    )
    {
        var at = right is null || left is null ? null : Max(Later(right), Later(left));
        var observation = maker.Make(
            "anisocoria",
            $"anisocoria/{light}",
            bundle.Concepts.Of("anisocoria", text: FhirWords.Of("Anisocoria", FhirWords.Of($"Light.{light}"))),
            at
        );
        observation.BodySite = bundle.Concepts.Of("pupils-both");
        observation.Device = devices.Difference.Again();
        observation.DerivedFrom = [ofRight.Again(), ofLeft.Again()];
        maker.Surroundings(observation, light, null);
        if (right is null || left is null)
        {
            observation.DataAbsentReason = WhyNoDifference(light, right, left);
            return maker.Add(observation);
        }

        var difference = right.DiameterMicrometres - left.DiameterMicrometres;
        observation.Value = Concepts.Millimetres(Math.Abs(difference));
        var larger =
            difference == 0
                ? bundle.Concepts.Of("neither")
                : bundle.Concepts.Side(difference > 0 ? Eye.Right : Eye.Left);
        maker.Component(observation, "larger-pupil", larger);
        maker.Component(observation, "doubtful", new FhirBoolean(right.IsDoubtful || left.IsDoubtful));
        if (UncertaintyOfDifference(light) is { } uncertainty)
        {
            maker.Component(observation, "expanded-uncertainty", Concepts.Quantity(uncertainty, "mm"));
        }

        return maker.Add(observation);
    }

    // Where one eye cannot be measured at all there is no difference to be had, whatever became of the other.
    private CodeableConcept WhyNoDifference(string light, RecordSize? right, RecordSize? left)
    {
        CodeableConcept?[] reasons =
        [
            right is null ? maker.Absent($"sizes-{light}", Eye.Right) : null,
            left is null ? maker.Absent($"sizes-{light}", Eye.Left) : null,
        ];
        CodeableConcept[] given = [.. reasons.OfType<CodeableConcept>()];
        return given.FirstOrDefault(r => r.Coding.Any(c => c.Code == "not-possible")) ?? given[0];
    }

    // What cancels between both eyes is known where findings are made, and not here.
    private decimal? UncertaintyOfDifference(string light) =>
        bundle.Record.Findings.FirstOrDefault(f => f.Criterion == "anisocoria-descriptive" && f.Light == light)
            is { ExpandedUncertainty: { } text, Unit: "mm" }
            ? decimal.Parse(text, CultureInfo.InvariantCulture)
            : null;

    private static string Later(RecordSize size) => Max(size.Nasal.At, size.Temporal.At);

    // ISO 8601 in UTC with the same number of digits sorts as text.
    private static string Max(string one, string other) => string.CompareOrdinal(one, other) >= 0 ? one : other;
}
