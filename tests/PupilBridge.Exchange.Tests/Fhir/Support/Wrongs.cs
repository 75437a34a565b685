using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>Bundles made wrong in one place each.</summary>
internal static class Wrongs
{
    public static void Do(Bundle bundle, string what)
    {
        var size = bundle.Observation("diameter/left/dim");
        var difference = bundle.Observation("anisocoria/dim");
        void Without(Observation from, string fact) => from.Component.RemoveAll(c => c.Code!.Ours() == fact);
        Action change = what switch
        {
            "no subject" => () => size.Subject = null,
            "two reasons" => () =>
                size.DataAbsentReason =
                    bundle.Observation("near/left").DataAbsentReason ?? new CodeableConcept { Text = "x" },
            "site names nobody" => () => size.BodySite = new CodeableConcept { Text = "left" },
            "right site with a left code" => () =>
                Recode(bundle.Observation("diameter/right/dim").BodySite!, "16089004"),
            "LOINC of the other eye" => () => size.BodySite = bundle.Observation("diameter/right/dim").BodySite,
            "no light" => () => Without(size, "illumination"),
            "no raw position" => () => Without(size, "scale-position-nasal"),
            "centimetres" => () => ((Quantity)size.Value!).Code = "cm",
            "no scale" => () => size.Device = null,
            "difference below zero" => () => ((Quantity)difference.Value!).Value = -0.1m,
            "no larger side" => () => Without(difference, "larger-pupil"),
            "derived from one" => () => difference.DerivedFrom.RemoveAt(1),
            "grade 5" => () => ((Quantity)bundle.Observation("direct/left").Value!).Value = 5,
            "direct in the other eye" => () => Relight(bundle.Observation("direct/left"), bundle, "direct/right"),
            "consensual in the lit eye" => () =>
                Relight(bundle.Observation("consensual/left"), bundle, "consensual/right"),
            "dwell without timing" => () => Without(bundle.Observation("swinging/swing-long"), "timely"),
            "verdict normal" => () =>
                ((CodeableConcept)bundle.Observation("finding/near-due").Value!).Coding[0].Code = "normal",
            "empty panel" => () => bundle.Observation("findings-panel").HasMember.Clear(),
            "scale without calibration" => () =>
                bundle.Entry.Select(e => e.Resource).OfType<DeviceMetric>().First().Calibration.Clear(),
            "report of nobody" => () => bundle.One<DiagnosticReport>().ResultsInterpreter.Clear(),
            "version of another report" => () => bundle.One<DiagnosticReport>().Identifier[1].Value = "77/1",
            "signature without digest" => () => bundle.One<Provenance>().Entity[0].What!.Identifier!.Value = "abc",
            "nobody attests" => () => bundle.One<Composition>().Attester.Clear(),
            "bad date" => () => bundle.One<Patient>().BirthDate = "1980-13-01",
            _ => throw new ArgumentOutOfRangeException(nameof(what), what, "No such wrong."),
        };
        change();
    }

    private static void Recode(CodeableConcept concept, string snomed) =>
        concept.Coding.Single(c => c.System == "http://snomed.info/sct").Code = snomed;

    private static void Relight(Observation observation, Bundle bundle, string like) =>
        observation.Component.Single(c => c.Code!.Ours() == "eye-lit").Value = bundle.Observation(like).Fact("eye-lit");
}
