using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

public sealed class AnswerTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Theory]
    [InlineData("Numpad0", "direct OD 0")]
    [InlineData("Numpad4", "direct OD 4")]
    [InlineData("Digit3", "direct OD 3")]
    [InlineData("Numpad5", "direct OD could-not-see")]
    public void A_grade_key_grades_what_is_asked(string code, string judgement) =>
        Assert.Equal([judgement], keys.Shows(Boards.DirectOf("OD")).Press(code).Judgements);

    [Theory]
    [InlineData("Numpad8", "shape OD round", "shape OS round")]
    [InlineData("Numpad7", "shape OD not-round", "shape OS round")]
    [InlineData("Numpad9", "shape OD round", "shape OS not-round")]
    [InlineData("Numpad6", "shape OD not-round", "shape OS not-round")]
    [InlineData("Numpad5", "shape OD could-not-see", "shape OS could-not-see")]
    public void The_shape_of_both_is_one_key_and_an_entry_for_each_eye(string code, string right, string left)
    {
        var effects = keys.Shows(Boards.ShapeOfBoth()).Press(code);

        Assert.Equal([right, left], effects.Judgements);
        Assert.NotEqual(Id(effects, 0), Id(effects, 1));
    }

    [Theory]
    [InlineData("Numpad8", "shape OS round")]
    [InlineData("Numpad9", "shape OS not-round")]
    public void The_shape_of_one_eye_says_nothing_of_the_other(string code, string judgement) =>
        Assert.Equal([judgement], keys.Shows(Boards.ShapeOf("OS")).Press(code).Judgements);

    [Fact]
    public void The_key_of_the_other_eye_does_not_answer_for_this_one() =>
        keys.Shows(Boards.ShapeOf("OS")).Press("Numpad7").AreRefused("keyAnswersOther");

    [Theory]
    [InlineData("short", "Numpad8", "swing short alike")]
    [InlineData("long", "Numpad7", "swing long worse OD")]
    [InlineData("long", "Numpad9", "swing long worse OS")]
    [InlineData("short", "Numpad5", "swing short could-not-see")]
    public void A_swing_key_says_the_outcome_of_its_dwell(string dwell, string code, string judgement) =>
        Assert.Equal([judgement], keys.Shows(Boards.Swing(dwell)).Press(code).Judgements);

    [Fact]
    public void An_entry_names_the_exam_step_and_stimulus_that_were_seen()
    {
        var entry = keys.Shows(Boards.DirectOf("OS")).Press("Numpad2").Entries.Single();

        Assert.Equal(Boards.Exam, entry["exam"]!.GetValue<long>());
        Assert.Equal("direct", entry["stepSeen"]!.GetValue<string>());
        Assert.Equal(83, entry["stimulusSeen"]!.GetValue<long>());
    }

    [Fact]
    public void A_key_counts_with_NumLock_off()
    {
        var effects = keys.Shows(Boards.DirectOf("OD")).Press("Numpad3", "PageDown");
        Assert.Equal(["direct OD 3"], effects.Judgements);
    }

    [Theory]
    [InlineData("NumpadMultiply", "bright")]
    [InlineData("NumpadDivide", "dim")]
    public void The_room_light_can_be_said_at_any_time(string code, string light)
    {
        var entry = keys.Shows(Boards.DirectOf("OD")).Press(code).Entries.Single();

        Assert.Equal("roomLight", entry["entry"]!.GetValue<string>());
        Assert.Equal(light, entry["light"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("KeyF", "far")]
    [InlineData("KeyN", "near")]
    public void Where_the_patient_looks_can_be_said(string code, string fixation)
    {
        var entry = keys.Shows(Boards.NothingAsked()).Press(code).Entries.Single();
        Assert.Equal(fixation, entry["fixation"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("NumpadAdd", "patient")]
    [InlineData("F2", "examiner")]
    [InlineData("KeyE", "eyes")]
    public void Other_keys_open_what_they_are_for(string code, string what)
    {
        var effects = keys.Shows(Boards.NoExam()).Press(code);

        Assert.Empty(effects.Entries);
        Assert.Equal(what, effects.Of("open").Single()["what"]!.GetValue<string>());
    }

    [Fact]
    public void Accepted_sounds_only_once_it_is_recorded()
    {
        var typed = keys.Shows(Boards.ShapeOfBoth()).Press("Numpad8");
        var first = Recorded(Id(typed, 0));
        var second = Recorded(Id(typed, 1));

        Assert.Empty(typed.Tones);
        Assert.Empty(first.Tones);
        Assert.Equal(["accepted"], second.Tones);
    }

    [Fact]
    public void What_is_recorded_but_does_not_count_sounds_refused_and_may_be_answered_anew()
    {
        var typed = keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        var outcome = keys.Take(
            "outcome",
            new()
            {
                ["entryId"] = Id(typed, 0),
                ["outcome"] = "recorded",
                ["notice"] = "It does not count.",
            }
        );
        keys.Wait(2000);

        Assert.Equal(["refused"], outcome.Tones);
        Assert.Equal(["direct OD 2"], keys.Press("Numpad2").Judgements);
    }

    [Fact]
    public void What_was_refused_by_the_service_may_be_answered_anew_at_once()
    {
        var typed = keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Take("outcome", new() { ["entryId"] = Id(typed, 0), ["outcome"] = "refused" });
        keys.Wait(400);

        Assert.Equal(["direct OD 3"], keys.Press("Numpad3").Judgements);
    }

    private Effects Recorded(string id) =>
        keys.Take(
            "outcome",
            new()
            {
                ["entryId"] = id,
                ["outcome"] = "recorded",
                ["notice"] = (JsonNode?)null,
            }
        );

    private static string Id(Effects effects, int index) => effects.Entries[index]["entryId"]!.GetValue<string>();
}
