using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace PupilBridge.Exchange.Sending;

/// <summary>A resource that a server has.</summary>
/// <param name="Path">Its type and id, below the server's base address.</param>
/// <param name="Status">Its status; null if it has none.</param>
/// <param name="Json">The resource itself.</param>
internal sealed record FoundResource(string Path, string? Status, JsonObject Json)
{
    /// <summary>The status of what is not valid any more.</summary>
    public const string InError = "entered-in-error";

    /// <summary>Whether it is not valid any more.</summary>
    public bool IsInError => Status == InError;

    /// <summary>The version that the server gave it; null if it did not say.</summary>
    public string? Version => Json["meta"] is JsonObject meta ? Outgoing(meta["versionId"]) : null;

    /// <summary>Which version of a record it holds; null if it does not say.</summary>
    /// <param name="id">By what the record is known.</param>
    public int? VersionOf(RecordIdentifier id) =>
        (Json["identifier"] as JsonArray ?? [])
            .OfType<JsonObject>()
            .Where(one => Outgoing(one["system"]) == id.VersionSystem)
            .Select(one => (Outgoing(one["value"]) ?? "").Split('/'))
            .Where(parts => parts.Length == 2 && parts[0] == id.Value)
            .Select(parts =>
                int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var version)
                    ? version
                    : (int?)null
            )
            .FirstOrDefault(version => version is not null);

    /// <summary>Reads a resource; null if it has no type or no id.</summary>
    public static FoundResource? Read(JsonNode? node) =>
        node is JsonObject json && Outgoing(json["resourceType"]) is { } type && Outgoing(json["id"]) is { } id
            ? new FoundResource($"{type}/{id}", Outgoing(json["status"]), json)
            : null;

    private static string? Outgoing(JsonNode? node) =>
        node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}

/// <summary>Asks a server whether it has a record.</summary>
internal static class Asking
{
    /// <summary>All resources with the record's identifier; those not valid any more as well.</summary>
    /// <exception cref="TryLaterException">It does not answer, or not with something that can be believed.</exception>
    public static async Task<IReadOnlyList<FoundResource>> FindAsync(
        FhirServer server,
        RecordIdentifier id,
        CancellationToken cancellation
    )
    {
        var token = Uri.EscapeDataString($"{Escaped(id.System)}|{Escaped(id.Value)}");
        var answer = await server.GetAsync($"{id.Type}?identifier={token}", cancellation).ConfigureAwait(false);
        if (answer.Code != 200)
        {
            throw Later(answer);
        }

        return Read(answer.Body, id.Type)
            ?? throw new TryLaterException(SendingText.Get("Answer.NoSearch"), isServer: false, answer.RetryAfter);
    }

    /// <summary>What to do after an answer that is no success to a question: ask again, since nothing was learnt.</summary>
    public static TryLaterException Later(ServerAnswer answer)
    {
        var verdict = AnswerJudge.OfFailure(answer);
        return verdict switch
        {
            Verdict.NotNow later => new TryLaterException(later.Reason, later.IsServer, later.RetryAfter),
            Verdict.Refused refused => new TryLaterException(refused.Reason, isServer: false),
            Verdict.SeveralThere several => new TryLaterException(several.Reason, isServer: false),
            _ => new TryLaterException(SendingText.Get("Answer.NoSearch"), isServer: false),
        };
    }

    private static List<FoundResource>? Read(string body, string type)
    {
        try
        {
            if (
                JsonNode.Parse(body) is not JsonObject bundle
                || !Is(bundle["resourceType"], "Bundle")
                || !Is(bundle["type"], "searchset")
            )
            {
                return null;
            }

            var entries = bundle["entry"] is JsonArray list ? list : [];
            var found = entries
                .Select(entry => FoundResource.Read((entry as JsonObject)?["resource"]))
                .OfType<FoundResource>()
                .Where(one => one.Path.StartsWith($"{type}/", StringComparison.Ordinal))
                .ToList();
            // A server may count without showing: then what it counts is not known, and must be asked again.
            return found.Count == 0 && bundle["total"] is JsonValue total && !Is(total, 0) ? null : found;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static bool Is<T>(JsonNode? node, T expected) =>
        node is JsonValue value && value.TryGetValue<T>(out var found) && Equals(found, expected);

    /// <summary>The marks that divide tokens in a search stand for themselves behind a backslash (FHIR R4, search, escaping).</summary>
    private static string Escaped(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("|", "\\|", StringComparison.Ordinal)
            .Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("$", "\\$", StringComparison.Ordinal);
}
