using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

public sealed class UndoTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Fact]
    public void Undo_takes_back_the_last_and_then_the_one_before()
    {
        var right = Answer(Boards.DirectOf("OD"), "Numpad3");
        var left = Answer(Boards.DirectOf("OS"), "Numpad2");

        Assert.Equal([left], Withdrawn(Undo()));
        Assert.Equal([right], Withdrawn(Undo()));
        Undo().AreRefused("nothingToUndo");
    }

    [Fact]
    public void Undo_opens_the_question_again()
    {
        Answer(Boards.DirectOf("OD"), "Numpad3");
        Undo();

        Assert.Equal(["direct OD 1"], keys.Press("Numpad1").Judgements);
    }

    [Fact]
    public void What_one_key_entered_for_both_eyes_is_taken_back_by_one_key()
    {
        keys.Shows(Boards.ShapeOfBoth());
        var typed = keys.Press("Numpad8").Entries.Select(one => one["entryId"]!.GetValue<string>());
        keys.Wait(500);

        Assert.Equal(typed, Withdrawn(Undo()));
    }

    [Fact]
    public void After_a_new_start_of_the_page_the_board_tells_what_can_be_taken_back()
    {
        keys.Shows(Boards.DirectOf("OS").Judged("a1", "direct OD 3", "AB", "direct"));

        Assert.Equal(["a1"], Withdrawn(Undo()));
    }

    [Fact]
    public void Nobody_takes_back_what_another_person_judged()
    {
        keys.Shows(Boards.DirectOf("OS").Judged("a1", "direct OD 3", "CD", "direct"));
        Undo().AreRefused("nothingToUndo");
    }

    [Fact]
    public void After_a_change_of_examiner_the_other_ones_answers_are_not_taken_back()
    {
        Answer(Boards.DirectOf("OD"), "Numpad3");
        keys.Take("who", new() { ["who"] = "CD" });

        Undo().AreRefused("nothingToUndo");
    }

    [Fact]
    public void What_the_service_refused_need_not_be_taken_back()
    {
        var first = Answer(Boards.DirectOf("OD"), "Numpad3");
        var second = Answer(Boards.DirectOf("OS"), "Numpad2");
        keys.Take("outcome", new() { ["entryId"] = second, ["outcome"] = "refused" });

        Assert.Equal([first], Withdrawn(Undo()));
    }

    [Fact]
    public void Undone_has_a_tone_of_its_own()
    {
        Answer(Boards.DirectOf("OD"), "Numpad3");
        var entry = Undo().Entries.Single();
        var outcome = keys.Take(
            "outcome",
            new()
            {
                ["entryId"] = entry["entryId"]!.DeepClone(),
                ["entry"] = entry.DeepClone(),
                ["outcome"] = "recorded",
            }
        );

        Assert.Equal(["undone"], outcome.Tones);
    }

    [Fact]
    public void An_undo_that_was_refused_leaves_the_answer_standing()
    {
        var typed = Answer(Boards.DirectOf("OD"), "Numpad3");
        var entry = Undo().Entries.Single();
        keys.Take(
            "outcome",
            new()
            {
                ["entryId"] = entry["entryId"]!.DeepClone(),
                ["entry"] = entry.DeepClone(),
                ["outcome"] = "refused",
            }
        );

        Assert.Equal([typed], Withdrawn(Undo()));
    }

    private string Answer(JsonObject board, string code)
    {
        var id = keys.Shows(board).Press(code).Entries.Single()["entryId"]!.GetValue<string>();
        keys.Wait(500);
        return id;
    }

    private Effects Undo()
    {
        var effects = keys.Press("NumpadSubtract");
        keys.Wait(400);
        return effects;
    }

    private static IEnumerable<string> Withdrawn(Effects effects) =>
        effects.Entries.Select(one => one["withdrawn"]!.GetValue<string>());
}
