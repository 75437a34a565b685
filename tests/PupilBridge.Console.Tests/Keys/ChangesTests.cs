using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>What an examiner hears when the board changes.</summary>
public sealed class ChangesTests : IDisposable
{
    private const string Source = """
        import { changes } from "./changes.js";
        import { aheadOf, clock, dwellRun, since } from "./clocks.js";
        export const told = (before, now) =>
            JSON.stringify(changes(JSON.parse(before), JSON.parse(now)).map((one) => `${one.tone}|${one.text}`));
        export const running = (moment, board, received, now) => JSON.stringify(
            since(JSON.parse(moment), aheadOf({ now: JSON.parse(board) }, JSON.parse(received)), JSON.parse(now)));
        export const shown = (ms) => JSON.stringify(clock(JSON.parse(ms)));
        export const dwell = (eye) => JSON.stringify(dwellRun(JSON.parse(eye), 0, Date.parse("2026-01-05T08:00:02Z")));
        """;

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Fact]
    public void A_new_question_sounds_due_and_is_said_once()
    {
        Assert.Equal(["due|asked in exam 40"], Told(Board(), Board(Boards.DirectOf("OD"))));
        Assert.Empty(Told(Board(Boards.DirectOf("OD")), Board(Boards.DirectOf("OD"))));
    }

    [Fact]
    public void What_no_key_answers_is_said_without_a_tone() =>
        Assert.Equal(["null|asked in exam 40"], Told(Board(), Board(Boards.NothingAsked())));

    [Fact]
    public void A_lost_line_sounds_refused_and_its_return_does_not()
    {
        Assert.Equal(["refused|words of lost"], Told(Board(), Board(line: "lost")));
        Assert.Equal(["null|words of connected"], Told(Board(line: "lost"), Board()));
    }

    [Fact]
    public void A_gap_sounds_refused()
    {
        var gap = Boards.DirectOf("OD");
        gap["exam"]!["gaps"] = new JsonArray("3 events were lost.");
        Assert.Equal(["refused|3 events were lost."], Told(Board(Boards.DirectOf("OD")), Board(gap)));
    }

    [Theory]
    [InlineData("instrument-left-on", true, "leftOn|words")]
    [InlineData("near-due", true, "due|words")]
    [InlineData("same-light-twice", false, "null|words")]
    public void A_reminder_sounds_only_if_it_is_urgent(string kind, bool isUrgent, string told)
    {
        var reminded = Board();
        reminded["reminders"] = new JsonArray(
            new JsonObject
            {
                ["kind"] = kind,
                ["words"] = "words",
                ["isUrgent"] = isUrgent,
            }
        );
        Assert.Equal([told], Told(Board(), reminded));
    }

    [Fact]
    public void Running_times_are_reckoned_by_the_clock_of_the_service()
    {
        var running = script.Call("running", "2026-01-05T08:00:00Z", "2026-01-05T08:00:07Z", 500, 1500);
        Assert.Equal(8000, running!.GetValue<double>());
        Assert.Equal("1:05", script.Call("shown", 65_900)!.GetValue<string>());
    }

    [Theory]
    [InlineData(4000, 0.5)]
    [InlineData(1000, 1.0)]
    [InlineData(null, null)]
    public void A_dwell_runs_from_the_lamp_going_on_to_what_is_wanted(int? wanted, double? run)
    {
        var eye = new JsonObject
        {
            ["isLit"] = true,
            ["litSince"] = "2026-01-05T08:00:00Z",
            ["dwellWantedMilliseconds"] = wanted,
        };
        Assert.Equal(run, script.Call("dwell", eye)?.GetValue<double>());
    }

    private IReadOnlyList<string> Told(JsonObject before, JsonObject now) =>
        [.. script.Call("told", before, now)!.AsArray().Select(one => one!.GetValue<string>())];

    private static JsonObject Board(JsonObject? of = null, string line = "connected")
    {
        var board = (JsonObject)(of ?? Boards.NoExam()).DeepClone();
        board["line"] = line;
        board["lineWords"] = $"words of {line}";
        board["trouble"] = null;
        board["reminders"] = new JsonArray();
        if (board["exam"] is JsonObject exam)
        {
            exam["patient"] = null;
            exam["reminders"] ??= new JsonArray();
            exam["beforeDrops"] ??= new JsonArray();
            exam["gaps"] ??= new JsonArray();
        }

        return board;
    }
}
