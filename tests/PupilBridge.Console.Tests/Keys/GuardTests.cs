using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>Keys that must not become a judgement, or not the one they look like.</summary>
public sealed class GuardTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Fact]
    public void Too_early_where_nothing_is_asked() =>
        keys.Shows(Boards.NothingAsked()).Press("Numpad3").AreRefused("nothingIsAsked");

    [Fact]
    public void Too_early_where_there_is_no_exam() => keys.Shows(Boards.NoExam()).Press("Numpad3").AreRefused("noExam");

    [Fact]
    public void Too_early_before_the_first_board_came() => keys.Press("Numpad8").AreRefused("noExam");

    [Fact]
    public void Too_late_where_the_question_is_gone()
    {
        keys.Shows(Boards.DirectOf("OD")).Shows(Boards.ReadyAsked()).Press("Numpad3").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void Too_late_where_the_question_is_answered()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Wait(1000);

        keys.Press("Numpad2").AreRefused("isAnswered");
    }

    [Fact]
    public void Too_late_where_the_exam_is_over() =>
        keys.Shows(Boards.DirectOf("OD").Status("ready")).Press("Numpad3").AreRefused("examIsOver");

    [Theory]
    [InlineData("Numpad8")]
    [InlineData("Numpad7")]
    [InlineData("Numpad9")]
    public void A_swing_key_does_not_answer_a_grade(string code) =>
        keys.Shows(Boards.DirectOf("OD")).Press(code).AreRefused("keyAnswersOther");

    [Fact]
    public void A_grade_key_does_not_answer_a_swing()
    {
        keys.Shows(Boards.Swing("short")).Press("Numpad3").AreRefused("keyAnswersOther");
    }

    [Fact]
    public void A_question_keeps_its_meaning_when_the_dial_moves_while_the_key_is_held_back()
    {
        keys.Shows(Boards.DirectOf("OD")).Down("Numpad3");
        keys.Wait(20);
        keys.Shows(Boards.Swing("short"));

        Assert.Equal(["direct OD 3"], keys.Wait(100).Judgements);
    }

    [Fact]
    public void A_key_that_went_down_before_the_next_question_is_not_for_that_question()
    {
        keys.Shows(Boards.NothingAsked()).Down("Numpad3");
        keys.Wait(20);
        keys.Shows(Boards.DirectOf("OD"));

        keys.Wait(100).AreRefused("nothingIsAsked");
    }

    [Fact]
    public void A_key_for_the_exam_before_goes_to_the_exam_before()
    {
        keys.Shows(Boards.DirectOf("OD")).Down("Numpad3");
        keys.Wait(20);
        keys.Shows(Boards.DirectOf("OD", exam: 50));

        Assert.Equal(Boards.Exam, keys.Wait(100).Entries.Single()["exam"]!.GetValue<long>());
    }

    [Fact]
    public void A_held_key_counts_once()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var all = keys.Down("Numpad3").And(keys.Wait(500));
        keys.Shows(Boards.DirectOf("OS"));
        for (var i = 0; i < 40; i++)
        {
            all = all.And(keys.Down("Numpad3", repeat: true)).And(keys.Wait(33));
        }

        Assert.Equal(["direct OD 3"], all.And(keys.Up("Numpad3")).And(keys.Wait(100)).Judgements);
        Assert.Empty(all.Tones);
    }

    [Fact]
    public void A_held_key_that_begins_to_repeat_late_counts_once()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var all = keys.Down("Numpad3").And(keys.Wait(3000));
        keys.Shows(Boards.DirectOf("OS"));

        Assert.Equal(["direct OD 3"], all.And(keys.Down("Numpad3", repeat: true)).And(keys.Wait(100)).Judgements);
    }

    [Fact]
    public void A_held_key_that_repeats_without_saying_so_counts_once()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var all = keys.Down("Numpad3").And(keys.Wait(500));
        keys.Shows(Boards.DirectOf("OS"));
        for (var i = 0; i < 10; i++)
        {
            all = all.And(keys.Down("Numpad3")).And(keys.Wait(100));
        }

        Assert.Equal(["direct OD 3"], all.Judgements);
    }

    [Fact]
    public void A_bouncing_contact_counts_once()
    {
        keys.Shows(Boards.DirectOf("OD")).Down("Numpad3");
        keys.Wait(5);
        keys.Up("Numpad3");
        keys.Wait(7);
        keys.Down("Numpad3");

        Assert.Equal(["direct OD 3"], keys.Wait(100).Judgements);
    }

    [Fact]
    public void A_double_tap_answers_one_question_though_the_next_one_came_in_between()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Wait(30);
        keys.Shows(Boards.DirectOf("OS")).Wait(40);

        keys.Press("Numpad3").AreRefused("pressedTwice");
    }

    [Theory]
    [InlineData(98, false)]
    [InlineData(102, true)]
    public void The_same_grade_for_the_next_eye_counts_once_its_question_was_seen(double seen, bool counts)
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Shows(Boards.DirectOf("OS")).Wait(seen);

        Assert.Equal(counts ? ["direct OS 3"] : [], keys.Press("Numpad3").Judgements);
    }

    [Fact]
    public void The_same_grade_for_the_next_eye_counts_after_a_refused_double_tap_has_passed()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Wait(10);
        keys.Shows(Boards.DirectOf("OS")).Wait(10);
        keys.Press("Numpad3");
        keys.Wait(300);

        Assert.Equal(["direct OS 3"], keys.Press("Numpad3").Judgements);
    }

    [Fact]
    public void Undo_tapped_twice_takes_back_one()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad3");
        keys.Shows(Boards.DirectOf("OS")).Wait(400);
        keys.Press("Numpad2");
        keys.Wait(400);

        var all = keys.Press("NumpadSubtract").And(keys.Press("NumpadSubtract"));
        Assert.Single(all.Entries);
        Assert.Equal(["pressedTwice"], all.Said);
    }

    [Fact]
    public void Two_keys_at_once_are_none()
    {
        keys.Shows(Boards.DirectOf("OD")).Down("Numpad2");
        keys.Wait(12);
        keys.Down("Numpad3");

        keys.Wait(100).AreRefused("twoKeysAtOnce");
    }

    [Fact]
    public void Keys_that_roll_over_are_two_keys()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var all = keys.Down("Numpad3").And(keys.Wait(50)).And(keys.Down("NumpadDecimal")).And(keys.Wait(100));

        Assert.Equal(["direct OD 3", "direct OD 3.5"], all.Judgements);
    }

    [Theory]
    [InlineData("ctrl")]
    [InlineData("alt")]
    [InlineData("meta")]
    [InlineData("inText")]
    public void Keys_with_modifiers_and_keys_typed_into_fields_are_left_alone(string held)
    {
        var more = new JsonObject { [held] = true };
        keys.Shows(Boards.DirectOf("OD"));

        Assert.False(keys.Wants("Digit3", (JsonObject)more.DeepClone()));
        Assert.Empty(keys.Down("Digit3", more: more).And(keys.Wait(100)).All);
    }

    [Fact]
    public void Shift_with_a_digit_is_no_grade()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var effects = keys.Down("Digit3", "#", more: new() { ["shift"] = true }).And(keys.Wait(100));

        effects.AreRefused("keyMeansNothing");
    }

    [Fact]
    public void A_key_that_means_nothing_is_said_to_mean_nothing() =>
        keys.Shows(Boards.DirectOf("OD")).Press("KeyQ").AreRefused("keyMeansNothing");

    [Fact]
    public void Lost_focus_is_heard_and_a_key_that_was_down_may_come_again()
    {
        keys.Shows(Boards.DirectOf("OD"));
        var all = keys.Down("Numpad3").And(keys.Wait(10)).And(keys.Take("blur"));

        Assert.Equal(["direct OD 3"], all.Judgements);
        Assert.Equal(["lostFocus"], all.Tones);
        Assert.True(all.Of("focus").Single()["lost"]!.GetValue<bool>());

        keys.Shows(Boards.DirectOf("OS")).Wait(1000);
        Assert.False(keys.Take("focus").Of("focus").Single()["lost"]!.GetValue<bool>());
        Assert.Equal(["direct OS 3"], keys.Press("Numpad3").Judgements);
    }
}
