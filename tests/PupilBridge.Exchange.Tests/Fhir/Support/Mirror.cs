using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Fhir;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>Right and left exchanged, in records and in bundles, as texts.</summary>
internal static partial class Mirror
{
    private static readonly Dictionary<string, string> Other = new(StringComparer.Ordinal)
    {
        ["right"] = "left",
        ["Right"] = "Left",
        ["OD"] = "OS",
        ["8643-9"] = "8641-3",
        ["52378001"] = "16089004",
        ["24028007"] = "7771000",
    };

    static Mirror()
    {
        foreach (var (one, other) in Other.ToArray())
        {
            Other.Add(other, one);
        }
    }

    public static string Of(string text) => Sided().Replace(text, m => Other[m.Value]);

    /// <summary>The record of the same exam with both eyes exchanged.</summary>
    public static SignedRecord Of(SignedRecord record) => SignedRecordText.Read(Of(SignedRecordText.Write(record)));

    /// <summary>
    /// What a bundle says, one text for each resource, without the order of its resources and with identifiers in place of the ids that
    /// are made from them.
    /// </summary>
    public static IReadOnlyList<string> Texts(Bundle bundle)
    {
        var names = bundle.Entry.ToDictionary(e => e.FullUrl!, e => $"{e.Resource!.TypeName} {Name(e.Resource)}");
        return
        [
            .. bundle
                .Entry.Select(e => Plain(JsonNode.Parse(FhirJson.Write(e.Resource!))!, names).ToJsonString())
                .Order(StringComparer.Ordinal),
        ];
    }

    public static IReadOnlyList<string> Texts(IEnumerable<string> texts) =>
        [.. texts.Select(t => Plain(JsonNode.Parse(Of(t))!, []).ToJsonString()).Order(StringComparer.Ordinal)];

    private static string Name(Resource resource) =>
        resource is Provenance or Composition ? "" : ((resource as dynamic).Identifier[0].Value as string)!;

    // Lists of references and components are sorted: their order is that of the eyes.
    private static JsonNode Plain(JsonNode node, Dictionary<string, string> names)
    {
        switch (node)
        {
            case JsonObject members:
                members.Remove("id");
                var copy = new JsonObject();
                foreach (var (key, value) in members.ToArray())
                {
                    copy[key] = value is null ? null : Plain(value, names);
                }

                return copy;
            case JsonArray items:
                return new JsonArray([
                    .. items
                        .Select(i => Plain(i!, names))
                        .OrderBy(i => i.ToJsonString(), StringComparer.Ordinal)
                        .Select(i => i.DeepClone()),
                ]);
            default:
                return
                    node is JsonValue text
                    && text.TryGetValue<string>(out var said)
                    && names.TryGetValue(said, out var name)
                    ? JsonValue.Create(name)
                    : node.DeepClone();
        }
    }

    [GeneratedRegex(@"\b(right|left|Right|Left|OD|OS|8643-9|8641-3|52378001|16089004|24028007|7771000)\b")]
    private static partial Regex Sided();
}
