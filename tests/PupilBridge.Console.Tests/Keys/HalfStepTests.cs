namespace PupilBridge.Console.Tests.Keys;

public sealed class HalfStepTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Fact]
    public void Half_a_step_more_on_the_last_grade_though_the_next_question_stands()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad2");
        keys.Shows(Boards.DirectOf("OS")).Wait(300);
        var entry = keys.Press("NumpadDecimal").Entries.Single();

        Assert.Equal("direct OD 2.5", entry["judgement"]!.GetValue<string>());
        Assert.Equal(77, entry["stimulusSeen"]!.GetValue<long>());
        Assert.Equal(["direct OS 3"], keys.Press("Numpad3").Judgements);
    }

    [Fact]
    public void Once_the_next_question_is_answered_half_a_step_is_for_that_one()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad2");
        keys.Shows(Boards.DirectOf("OS")).Wait(300);
        keys.Press("Numpad1");

        Assert.Equal(["direct OS 1.5"], keys.Press("NumpadDecimal").Judgements);
    }

    [Fact]
    public void Once_something_else_was_judged_there_is_no_grade_to_add_to()
    {
        keys.Shows(Boards.DirectOf("OS")).Press("Numpad2");
        keys.Shows(Boards.Swing("short")).Wait(300);
        keys.Press("Numpad8");

        keys.Press("NumpadDecimal").AreRefused("noGradeForHalf");
    }

    [Fact]
    public void Nothing_goes_above_four()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad4");
        keys.Wait(300);
        keys.Press("NumpadDecimal").AreRefused("noHalfAboveFour");
    }

    [Fact]
    public void Could_not_see_is_no_grade_to_add_to()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad5");
        keys.Wait(300);
        keys.Press("NumpadDecimal").AreRefused("noGradeForHalf");
    }

    [Fact]
    public void Undo_takes_back_the_half_step_and_then_the_grade()
    {
        keys.Shows(Boards.DirectOf("OD")).Press("Numpad2");
        keys.Wait(300);
        var half = keys.Press("NumpadDecimal").Entries.Single()["entryId"]!.GetValue<string>();
        keys.Wait(300);

        var undo = keys.Press("NumpadSubtract").Entries.Single();
        Assert.Equal(half, undo["withdrawn"]!.GetValue<string>());
        keys.Wait(500);
        Assert.Equal(["direct OD 2.5"], keys.Press("NumpadDecimal").Judgements);
    }

    [Fact]
    public void Another_persons_grade_is_not_added_to()
    {
        keys.Shows(Boards.DirectOf("OS").Judged("a1", "direct OD 3", "CD", "direct"));
        keys.Press("NumpadDecimal").AreRefused("noGradeForHalf");
    }

    [Fact]
    public void After_a_new_start_of_the_page_the_last_own_grade_is_the_boards()
    {
        keys.Shows(Boards.DirectOf("OS").Judged("a1", "direct OD 3", "AB", "direct"));
        Assert.Equal(["direct OD 3.5"], keys.Press("NumpadDecimal").Judgements);
    }
}
