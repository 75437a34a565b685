using System.Text.Json;

namespace PupilBridge.Exchange.Sending;

/// <summary>What an answer means: a pure function. An answer is believed only if it shows what was done.</summary>
public static class AnswerJudge
{
    private const int Unauthorized = 401;
    private const int PreconditionFailed = 412;

    /// <summary>Judges the answer to a posted transaction.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="entries">How many requests the transaction made.</param>
    public static Verdict OfTransaction(ServerAnswer answer, int entries)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Code is >= 200 and < 300 ? OfSuccess(answer, entries) : OfFailure(answer);
    }

    /// <summary>Judges an answer that is no success.</summary>
    /// <param name="answer">The answer.</param>
    public static Verdict OfFailure(ServerAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var said = Outcomes.WordsIn(answer.Body);
        var reason =
            said.Length == 0
                ? SendingText.Get("Answer.Code", answer.Code)
                : SendingText.Get("Answer.Said", answer.Code, said);
        return answer.Code switch
        {
            PreconditionFailed => new Verdict.SeveralThere(reason),
            // Nothing is wrong with the record: a secret that ran out, or is being replaced, must not make a dead letter of each.
            Unauthorized => new Verdict.NotNow(
                SendingText.Get("Answer.NotLetIn", reason),
                IsServer: true,
                answer.RetryAfter
            ),
            408 or 429 or 502 or 503 or 504 => new Verdict.NotNow(reason, IsServer: true, answer.RetryAfter),
            409 or >= 500 => new Verdict.NotNow(reason, IsServer: false, answer.RetryAfter),
            >= 300 and < 400 => new Verdict.Refused(SendingText.Get("Answer.Elsewhere", answer.Code)),
            >= 400 => new Verdict.Refused(reason),
            _ => new Verdict.Unbelievable(reason),
        };
    }

    private static Verdict OfSuccess(ServerAnswer answer, int entries)
    {
        try
        {
            using var json = JsonDocument.Parse(answer.Body);
            var root = json.RootElement;
            if (!root.Is("resourceType", "Bundle") || !root.Is("type", "transaction-response"))
            {
                return new Verdict.Unbelievable(SendingText.Get("Answer.NoResponse", answer.Code));
            }

            var answers = root.Items("entry").ToList();
            if (answers.Count != entries)
            {
                return new Verdict.Unbelievable(SendingText.Get("Answer.Count", answers.Count, entries));
            }

            if (answers.FindIndex(one => !IsDone(one)) is >= 0 and var failed)
            {
                return new Verdict.Unbelievable(SendingText.Get("Answer.PartFailed", StatusOf(answers[failed]) ?? "?"));
            }

            return new Verdict.Stored(LocationIn(answers));
        }
        catch (JsonException)
        {
            return new Verdict.Unbelievable(SendingText.Get("Answer.NoJson", answer.Code));
        }
    }

    private static string? LocationIn(List<JsonElement> answers)
    {
        var all = answers.Select(one => one.Part("response")?.Text("location")).OfType<string>().ToList();
        return all.Find(place => place.Contains("DiagnosticReport/", StringComparison.Ordinal)) ?? all.FirstOrDefault();
    }

    private static bool IsDone(JsonElement entry) =>
        StatusOf(entry) is { Length: >= 3 } status
        && status[0] == '2'
        && status.AsSpan(0, 3).IndexOfAnyExceptInRange('0', '9') < 0;

    private static string? StatusOf(JsonElement entry) => entry.Part("response")?.Text("status");
}
