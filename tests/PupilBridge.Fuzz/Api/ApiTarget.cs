using System.Net;
using System.Text;
using System.Text.Json;
using PupilBridge.Clinic;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Api;

/// <summary>
/// Bodies for the web API, over a real house in this process: every answer is a success or a refusal of the caller, never a fault of the
/// server; a refusal is problem details that say something and nothing of the inside; an entry's outcome is one of the three that there are.
/// An input is the body of <c>POST /api/v1/entries</c>; where its first line begins with GET or POST, that and the path go before the body.
/// </summary>
internal sealed class ApiTarget : IFuzzTarget, IDisposable
{
    private const int BodiesOfAHouse = 4000;
    private ApiHouse? house;
    private int inHouse;

    public IReadOnlyList<byte[]> Seeds { get; } = [.. Entries(), .. Paths(), .. FailedBefore.Of("api")];

    public int MaxBytes => 16_384;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice) =>
        TextMutator.Change(from, other, into, ref dice);

    public ulong Run(ReadOnlySpan<byte> input)
    {
        Units++;
        if (house is null || ++inHouse > BodiesOfAHouse)
        {
            house?.Dispose();
            (house, inHouse) = (new ApiHouse(), 0);
        }

        using var request = Request(input);
        if (request is null || !IsOfTheApi(request))
            return 0;
        using var answer = house
            .Client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead)
            .GetAwaiter()
            .GetResult();
        var type = answer.Content.Headers.ContentType?.MediaType ?? "";
        // A stream of events has no end; that it began is enough.
        var body = type == "text/event-stream" ? "" : answer.Content.ReadAsStringAsync().GetAwaiter().GetResult();
        if ((int)answer.StatusCode >= 500)
            throw new Finding("The web API answers with a fault of the server", $"{(int)answer.StatusCode} {body}");
        var signature = new Signature();
        signature.Add((int)answer.StatusCode);
        signature.Add(type.Length);
        if ((int)answer.StatusCode >= 400)
            Refusal(answer.StatusCode, type, body, ref signature);
        else if (
            request.RequestUri!.OriginalString.EndsWith("/entries", StringComparison.Ordinal)
            && request.Method == HttpMethod.Post
        )
            Outcome(body, ref signature);
        return signature.Bits;
    }

    public void Dispose() => house?.Dispose();

    /// <summary>Dots in a path lead out of the API; what a page answers is another matter.</summary>
    private static bool IsOfTheApi(HttpRequestMessage request) =>
        new Uri(new Uri("http://localhost"), request.RequestUri!).AbsolutePath.StartsWith(
            "/api/",
            StringComparison.Ordinal
        );

    private static void Refusal(HttpStatusCode status, string type, string body, ref Signature signature)
    {
        if (
            body.Contains("Exception", StringComparison.Ordinal)
            || body.Contains("   at PupilBridge", StringComparison.Ordinal)
        )
            throw new Finding("A refusal tells of the inside", body);
        // The one answer without words is to a page's own script (docs/web-api.md); it has its token here.
        if (type != "application/problem+json")
            throw new Finding("A refusal is no problem details", $"{(int)status} {type} {body}");
        using var problem = JsonDocument.Parse(body);
        var words = problem.RootElement.TryGetProperty("detail", out var detail) ? detail.GetString() : null;
        if (string.IsNullOrEmpty(words))
            throw new Finding("A refusal says nothing", $"{(int)status} {body}");
        foreach (var c in words.AsSpan(0, Math.Min(words.Length, 48)))
            signature.Add(c);
    }

    private static void Outcome(string body, ref Signature signature)
    {
        using var outcome = JsonDocument.Parse(body);
        var word = outcome.RootElement.GetProperty("outcome").GetString();
        if (word is not ("recorded" or "alreadyRecorded" or "refused"))
            throw new Finding("An entry has an outcome that there is not", body);
        signature.Add(word.Length);
        if (outcome.RootElement.TryGetProperty("reason", out var reason))
        {
            foreach (var c in reason.GetString().AsSpan(0, Math.Min(reason.GetString()!.Length, 48)))
                signature.Add(c);
        }
    }

    private static HttpRequestMessage? Request(ReadOnlySpan<byte> input)
    {
        var (method, path) = (HttpMethod.Post, "/api/v1/entries");
        var body = input;
        var isGet = input.StartsWith("GET /"u8);
        if (isGet || input.StartsWith("POST /"u8))
        {
            var end = input.IndexOf((byte)'\n');
            var line = Encoding.UTF8.GetString(end < 0 ? input : input[..end]);
            (method, path) = (isGet ? HttpMethod.Get : HttpMethod.Post, line[(line.IndexOf('/'))..].Trim());
            body = end < 0 ? default : input[(end + 1)..];
        }

        // What no client can ask for is not the server's matter here; raw bytes go to the started service (docs/security.md).
        if (
            !path.StartsWith("/api/v1/", StringComparison.Ordinal)
            || !Uri.TryCreate($"http://localhost{path}", UriKind.Absolute, out var address)
            // The client that speaks to a server in memory falls over a NUL before the server sees it; the real one refuses it.
            || address.AbsolutePath.Contains("%00", StringComparison.Ordinal)
        )
            return null;
        var request = new HttpRequestMessage(method, address);
        if (!isGet)
        {
            request.Content = new ByteArrayContent(body.ToArray());
            request.Content.Headers.ContentType = new("application/json");
        }

        return request;
    }

    private static IEnumerable<byte[]> Entries()
    {
        var words = new Dictionary<string, string>
        {
            ["entryId"] = "\"0123456789abcdef0123456789abcdef\"",
            ["who"] = "\"MK\"",
            ["instrument"] = "\"QB-0701\"",
            ["eye"] = "\"OD\"",
            ["light"] = "\"bright\"",
            ["day"] = "\"2026-03-02\"",
            ["time"] = "\"09:00\"",
        };
        foreach (var kind in ClinicJson.Default.DeskEntry.PolymorphismOptions!.DerivedTypes)
        {
            var made = JsonSkeleton.Of(kind.DerivedType, ClinicJson.Default.Options, words)!.AsObject();
            made.Remove("entry");
            made.Insert(0, "entry", (string)kind.TypeDiscriminator!);
            yield return Encoding.UTF8.GetBytes(made.ToJsonString());
        }
    }

    private static IEnumerable<byte[]> Paths() =>
        new[]
        {
            "GET /api/v1/exams?patient=Q-1001&status=open&from=2026-03-02T09:00:00Z&before=2026-03-03T00:00:00Z&limit=2&after=1",
            "GET /api/v1/exams/1/record?version=1",
            "GET /api/v1/exams/1/exports/report-pdf?paper=a5",
            "GET /api/v1/patients?find=Q&limit=3&after=Q-1001",
            "GET /api/v1/patients/Q-1001/visits",
            "GET /api/v1/tables/readings?format=csv&from=2026-03-02T09:00:00Z",
            "GET /api/v1/lanes/QB-0701",
            "POST /api/v1/lanes/QB-0701/switch-off\n{}",
            "GET /api/v1/day-list",
        }.Select(Encoding.UTF8.GetBytes);
}
