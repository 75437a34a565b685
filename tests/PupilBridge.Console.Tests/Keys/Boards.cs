using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>Lanes as the service describes them, as far as the keys look at them.</summary>
internal static class Boards
{
    public const long Exam = 40;

    public static JsonObject DirectOf(string eye, long exam = Exam) =>
        With(
            Prompt("grade", exam, $"{exam}|direct|{eye}|77", $"direct {eye}", "direct", eye, eye == "OD" ? 77 : 83),
            exam
        );

    public static JsonObject ShapeOfBoth() =>
        With(Prompt("shape", Exam, "40|shape||", "shape both", "shape", null, null));

    public static JsonObject ShapeOf(string eye) =>
        With(Prompt("shape", Exam, $"40|shape|{eye}|", $"shape {eye}", "shape", eye, null));

    public static JsonObject Swing(string dwell) =>
        With(Prompt("swing", Exam, $"40|swing-{dwell}||90", $"swing {dwell}", $"swing-{dwell}", null, 90));

    /// <summary>The consensual responses are offered beside it, by the eye lit.</summary>
    public static JsonObject Offering(this JsonObject board, params string[] lit)
    {
        board["exam"]!["optional"] = new JsonArray([
            .. lit.Select(eye =>
            {
                var prompt = Prompt("grade", Exam, Consensual(eye), $"consensual lit {eye}", "consensual", eye, 77);
                prompt["isOptional"] = true;
                return prompt;
            }),
        ]);
        return board;
    }

    public static string Consensual(string lit) => $"40|grade-consensual|consensual|{lit}|77";

    public static JsonObject NearOf(string eye) =>
        With(Prompt("grade", Exam, $"40|near|{eye}|", $"near {eye}", "near", eye, null));

    public static JsonObject NothingAsked() => With(Prompt("none", Exam, "40|sizes-bright||", "", null, null, null));

    public static JsonObject ReadyAsked() => With(Prompt("ready", Exam, "40|ready||", "", null, null, null));

    public static JsonObject NoExam() => new() { ["exam"] = null };

    public static JsonObject Missing(this JsonObject board, params string[] steps)
    {
        var exam = board["exam"]!;
        exam["missing"] = new JsonArray([.. steps.Select(step => JsonValue.Create($"{step} is not done"))]);
        exam["missingSteps"] = new JsonArray([.. steps.Select(step => JsonValue.Create(step))]);
        return board;
    }

    public static JsonObject Status(this JsonObject board, string status)
    {
        board["exam"]!["status"] = status;
        return board;
    }

    public static JsonObject Patient(this JsonObject board, string? patient)
    {
        board["exam"]!["patient"] = patient is null ? null : new JsonObject { ["patient"] = patient };
        return board;
    }

    public static JsonObject Judged(this JsonObject board, string entryId, string judgement, string who, string step)
    {
        ((JsonArray)board["exam"]!["judgements"]!).Add(
            new JsonObject
            {
                ["entryId"] = entryId,
                ["judgement"] = judgement,
                ["words"] = judgement,
                ["who"] = who,
                ["step"] = step,
            }
        );
        return board;
    }

    private static JsonObject With(JsonObject prompt, long exam = Exam) =>
        new()
        {
            ["exam"] = new JsonObject
            {
                ["exam"] = exam,
                ["status"] = "open",
                ["patient"] = new JsonObject { ["patient"] = "Q-1001" },
                ["prompt"] = prompt,
                ["missing"] = new JsonArray(),
                ["missingSteps"] = new JsonArray(),
                ["judgements"] = new JsonArray(),
            },
        };

    private static JsonObject Prompt(
        string accepts,
        long exam,
        string key,
        string judges,
        string? step,
        string? eye,
        long? stimulus
    ) =>
        new()
        {
            ["key"] = key,
            ["accepts"] = accepts,
            ["judges"] = judges,
            ["step"] = step,
            ["eye"] = eye,
            ["stimulus"] = stimulus,
            ["words"] = $"asked in exam {exam}",
        };
}
