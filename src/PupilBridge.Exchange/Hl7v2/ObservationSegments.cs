using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir;

namespace PupilBridge.Exchange.Hl7v2;

/// <summary>
/// One OBX for each observation and one for each fact of the same reading, which shares its sub-id; NTE for texts and for why there is
/// no value.
/// </summary>
/// <param name="segments">Where they are added.</param>
/// <param name="document">The record as a FHIR document.</param>
internal sealed class ObservationSegments(Hl7Segments segments, Bundle document)
{
    private readonly Dictionary<string, string> equipment = document
        .Entry.Where(e => e.Resource is DeviceMetric or Device)
        .ToDictionary(e => e.FullUrl ?? "", e => IdentifierOf(e.Resource!));

    private int count;
    private int group;

    public void Add()
    {
        foreach (var observation in document.Entry.Select(e => e.Resource).OfType<Observation>())
        {
            group++;
            var status = Hl7Codes.Status(observation.Status);
            if (observation.HasMember.Count == 0)
            {
                var whole = observation.DataAbsentReason is { } absent ? Hl7Codes.Status(absent) : status;
                Obx(observation.Code, observation.Value, whole, observation);
                // A note belongs to the segment that it follows.
                Texts(observation);
            }

            foreach (var component in observation.Component)
            {
                Obx(component.Code, component.Value, status, observation);
            }

            if (observation.HasMember.Count > 0)
            {
                Texts(observation);
            }
        }
    }

    private void Obx(CodeableConcept code, DataType? value, string status, Observation of)
    {
        var (type, text, unit) = Value(value);
        segments.Add(
            "OBX",
            (1, Hl7Segments.Number(++count)),
            (2, type),
            (3, Hl7Codes.Of(code)),
            (4, Hl7Segments.Number(group)),
            (5, text),
            (6, unit),
            (11, status),
            (14, of.Effective is FhirDateTime { Value: { } at } ? Hl7Text.Time(FhirTimes.Read(at)) : null),
            (16, Hl7Text.Escape(of.Performer.FirstOrDefault()?.Display)),
            (18, Hl7Text.Escape(equipment.GetValueOrDefault(of.Device?.Reference ?? ""))),
            (20, of.BodySite is { } site ? Hl7Codes.Of(site) : null)
        );
    }

    private void Texts(Observation observation)
    {
        IEnumerable<string?> texts = observation.Note.Select(n => n.Text);
        if (observation.DataAbsentReason is { } absent)
        {
            texts = texts.Prepend(absent.Text);
        }

        var line = 0;
        foreach (var text in texts)
        {
            segments.Add("NTE", (1, Hl7Segments.Number(++line)), (2, "L"), (3, Hl7Text.Escape(text)));
        }
    }

    private static (string? Type, string? Text, string? Unit) Value(DataType? value) =>
        value switch
        {
            Quantity quantity => (
                "NM",
                quantity.Value?.ToString(CultureInfo.InvariantCulture),
                Hl7Text.Components(quantity.Code, null, "UCUM")
            ),
            CodeableConcept concept => ("CWE", Hl7Codes.Of(concept), null),
            // Table 0136: yes or no.
            FhirBoolean truth => ("ID", truth.Value == true ? "Y" : "N", null),
            FhirString words => ("ST", Hl7Text.Escape(words.Value), null),
            _ => (null, null, null),
        };

    private static string IdentifierOf(Resource resource) =>
        resource switch
        {
            DeviceMetric metric => metric.Identifier.FirstOrDefault()?.Value ?? "",
            Device device => device.Identifier.FirstOrDefault()?.Value ?? "",
            _ => "",
        };
}
