using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace PupilBridge.Exchange.Fhir;

/// <summary>
/// FHIR resources as JSON in UTF-8. The first use makes the library read its own model, which takes the better part of a second:
/// nothing here may be touched on the way of a reading.
/// </summary>
public static class FhirJson
{
    /// <summary>What the media type of such a text is.</summary>
    public const string MediaType = "application/fhir+json";

    private static readonly Lazy<FhirJsonSerializer> Writer = new(() => new FhirJsonSerializer());
    private static readonly Lazy<FhirJsonDeserializer> Reader = new(() => new FhirJsonDeserializer());

    /// <summary>Writes a resource.</summary>
    /// <param name="resource">The resource.</param>
    /// <param name="isPretty">Whether for people, with line breaks.</param>
    public static string Write(Resource resource, bool isPretty = false) =>
        Writer.Value.SerializeToString(resource, isPretty);

    /// <summary>Reads a resource.</summary>
    /// <typeparam name="T">Which kind it must be.</typeparam>
    /// <param name="json">Its text.</param>
    /// <exception cref="FormatException">It is no such resource; the message says where it goes wrong.</exception>
    public static T Read<T>(string json)
        where T : Resource
    {
        try
        {
            return Reader.Value.Deserialize<T>(json);
        }
        catch (Exception e) when (e is DeserializationFailedException or System.Text.Json.JsonException)
        {
            throw new FormatException($"It is no {typeof(T).Name} of FHIR R4: {e.Message}", e);
        }
    }
}
