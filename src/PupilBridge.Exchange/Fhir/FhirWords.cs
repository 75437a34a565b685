using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Fhir;

/// <summary>The words for people in what leaves the house as FHIR and HL7 messages.</summary>
internal static class FhirWords
{
    public static HouseText Text { get; } = new(typeof(FhirWords), "PupilBridge.Exchange.Text.Fhir");

    public static string Of(string key, params object?[] values) => Text.Get(key, values);
}
