using System.Text.Json;
using System.Text.Json.Nodes;

namespace PupilBridge.Exchange.Sending;

/// <summary>
/// Marks a record that went out, and was set aside afterwards, as entered in error at the server: the report and every observation
/// that it leads to. Nothing is deleted there.
/// </summary>
internal static class Withdrawing
{
    /// <summary>The most resources that one record is believed to lead to.</summary>
    private const int Most = 1_000;

    /// <summary>Marks everything; what is marked already is left alone, so that a second run does no harm.</summary>
    /// <returns>How many resources belong to the record; 0 if the server does not have it.</returns>
    /// <exception cref="TryLaterException">The server cannot just now.</exception>
    /// <exception cref="RecordNotSentException">The server refuses.</exception>
    public static async Task<int> RunAsync(
        FhirServer server,
        IReadOnlyList<FoundResource> reports,
        CancellationToken cancellation
    )
    {
        var known = reports.Select(report => report.Path).ToHashSet(StringComparer.Ordinal);
        var waiting = new Queue<FoundResource>(reports);
        var marked = new Stack<FoundResource>();
        while (waiting.TryDequeue(out var resource) && known.Count <= Most)
        {
            marked.Push(resource);
            foreach (var path in LeadsTo(resource).Where(known.Add))
            {
                waiting.Enqueue(await ReadAsync(server, path, cancellation).ConfigureAwait(false));
            }
        }

        // The report last: as long as it is valid, the record counts as not withdrawn, and a run that was cut off is made again.
        while (marked.TryPop(out var resource))
        {
            if (!resource.IsInError)
            {
                await MarkAsync(server, resource, cancellation).ConfigureAwait(false);
            }
        }

        return known.Count;
    }

    private static IEnumerable<string> LeadsTo(FoundResource resource) =>
        ((string[])["result", "hasMember"])
            .SelectMany(name => resource.Json[name] as JsonArray ?? [])
            .Select(reference => (reference as JsonObject)?["reference"]?.ToString())
            .OfType<string>()
            .Select(path => path[Math.Max(0, path.LastIndexOf("Observation/", StringComparison.Ordinal))..])
            .Select(path => path.Split("/_history", 2)[0])
            .Where(path => path.StartsWith("Observation/", StringComparison.Ordinal));

    private static async Task<FoundResource> ReadAsync(FhirServer server, string path, CancellationToken cancellation)
    {
        var answer = await server.GetAsync(path, cancellation).ConfigureAwait(false);
        if (answer.Code != 200)
        {
            throw Asking.Later(answer);
        }

        try
        {
            return FoundResource.Read(JsonNode.Parse(answer.Body))
                ?? throw new TryLaterException(SendingText.Get("Answer.NoJson", answer.Code), isServer: false);
        }
        catch (JsonException garbage)
        {
            throw new TryLaterException(SendingText.Get("Answer.NoJson", answer.Code), isServer: false, inner: garbage);
        }
    }

    private static async Task MarkAsync(FhirServer server, FoundResource resource, CancellationToken cancellation)
    {
        resource.Json["status"] = FoundResource.InError;
        var answer = await server
            .PutAsync(resource.Path, resource.Json.ToJsonString(), resource.Version, cancellation)
            .ConfigureAwait(false);
        if (answer.Code is >= 200 and < 300)
        {
            return;
        }

        throw AnswerJudge.OfFailure(answer) switch
        {
            Verdict.Refused refused => new RecordNotSentException(refused.Reason),
            // Somebody changed it meanwhile: it is read again at the next try.
            _ => Asking.Later(answer),
        };
    }
}
