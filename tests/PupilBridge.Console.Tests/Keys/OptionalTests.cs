namespace PupilBridge.Console.Tests.Keys;

/// <summary>
/// The consensual response: a key of its own opens it, the grade keys answer it, and no grade that was meant for anything else ever
/// lands in it.
/// </summary>
public sealed class OptionalTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Fact]
    public void A_grade_does_not_answer_it_as_long_as_nobody_opened_it()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS")).Press("Numpad2").AreRefused("nothingIsAsked");
        keys.Wait(2000);
        keys.Shows(Boards.Swing("short").Offering("OD", "OS")).Press("Numpad2").AreRefused("keyAnswersOther");
        keys.Wait(2000);
        keys.Shows(Boards.ReadyAsked().Offering("OD", "OS")).Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void Its_key_opens_it_and_a_grade_key_answers_it()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS"));
        var opened = keys.Press("KeyC");
        Assert.Equal(["opened"], opened.Tones);
        Assert.Empty(opened.Entries);
        keys.Wait(400);

        var graded = keys.Press("Numpad2");

        Assert.Equal(["consensual lit OD 2"], graded.Judgements);
        Assert.Equal("consensual", graded.Entries[0]["stepSeen"]!.GetValue<string>());
        Assert.Equal(77, graded.Entries[0]["stimulusSeen"]!.GetValue<long>());
    }

    [Fact]
    public void After_the_answer_it_is_closed_so_that_a_second_grade_lands_nowhere()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS")).Press("KeyC");
        keys.Wait(400);
        keys.Press("Numpad2");
        keys.Wait(400);

        keys.Press("Numpad3").AreRefused("nothingIsAsked");
        keys.Wait(400);
        keys.Press("KeyC");
        keys.Wait(400);
        Assert.Equal(["consensual lit OS 3"], keys.Press("Numpad3").Judgements);
    }

    [Fact]
    public void Its_key_again_turns_to_the_other_eye_and_then_puts_it_away()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS")).Press("KeyC");
        keys.Wait(400);
        Assert.Equal(["opened"], keys.Press("KeyC").Tones);
        keys.Wait(400);
        Assert.Equal(["consensual lit OS 0"], keys.Press("Numpad0").Judgements);
        keys.Shows(Boards.NothingAsked().Offering("OD"));
        keys.Wait(400);
        keys.Press("KeyC");
        keys.Wait(400);
        Assert.Empty(keys.Press("KeyC").Tones);
        keys.Wait(400);
        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void Escape_puts_it_away()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Press("Escape");
        keys.Wait(400);
        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Theory]
    [InlineData("direct")]
    [InlineData("near")]
    [InlineData("swing")]
    [InlineData("shape")]
    public void Whatever_is_due_comes_first(string what)
    {
        keys.Shows(Due(what)).Press("KeyC").AreRefused("dueFirst");
        keys.Wait(2000);
        if (what is "direct" or "near")
            Assert.Equal([$"{what} OS 3"], keys.Press("Numpad3").Judgements);
    }

    [Theory]
    [InlineData("direct", "Numpad3", "direct OS 3")]
    [InlineData("near", "Numpad3", "near OS 3")]
    [InlineData("swing", "Numpad8", "swing short alike")]
    [InlineData("swing", "Numpad5", "swing short could-not-see")]
    public void A_due_question_takes_its_place_and_hears_no_key_that_came_too_soon_for_it(
        string what,
        string code,
        string judgement
    )
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS")).Press("KeyC");
        keys.Wait(1000);
        keys.Shows(Due(what));
        keys.Wait(300);
        keys.Press(code).AreRefused("questionChanged");
        keys.Wait(1000);

        Assert.Equal([judgement], keys.Press(code).Judgements);
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS"));
        keys.Wait(1000);
        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void A_key_that_went_down_for_it_stays_its_own_when_a_due_question_comes_meanwhile()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Down("Numpad1");
        keys.Wait(20);
        keys.Shows(Boards.NearOf("OD").Offering("OD"));

        Assert.Equal(["consensual lit OD 1"], keys.Wait(100).Judgements);
    }

    [Fact]
    public void It_keeps_its_meaning_while_it_stays_offered_whatever_else_is_to_be_done()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD", "OS")).Press("KeyC");
        keys.Wait(400);
        keys.Shows(Boards.ReadyAsked().Offering("OD", "OS"));
        keys.Wait(400);

        Assert.Equal(["consensual lit OD 2"], keys.Press("Numpad2").Judgements);
    }

    [Fact]
    public void It_goes_when_it_is_no_longer_offered()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Shows(Boards.NothingAsked());
        keys.Wait(400);

        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void Keys_that_answer_other_kinds_do_not_answer_it()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Press("Numpad8").AreRefused("keyAnswersOther");
        keys.Wait(400);
        Assert.Equal(["consensual lit OD could-not-see"], keys.Press("Numpad5").Judgements);
    }

    [Fact]
    public void A_half_step_follows_its_grade_and_it_can_be_taken_back()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Press("Numpad2");
        keys.Wait(400);
        Assert.Equal(["consensual lit OD 2.5"], keys.Press("NumpadDecimal").Judgements);
        keys.Wait(400);
        Assert.Equal("withdraw", keys.Press("NumpadSubtract").Entries[0]["entry"]!.GetValue<string>());
    }

    [Fact]
    public void It_never_stands_in_the_way_of_Enter()
    {
        keys.Shows(Boards.ReadyAsked().Offering("OD", "OS")).Press("KeyC");
        keys.Wait(400);

        Assert.Equal("makeReady", Assert.Single(keys.Press("NumpadEnter").Entries)["entry"]!.GetValue<string>());
    }

    [Fact]
    public void Its_key_is_refused_where_nothing_is_offered()
    {
        keys.Shows(Boards.NothingAsked()).Press("KeyC").AreRefused("nothingOptional");
        keys.Wait(1000);
        keys.Shows(Boards.NoExam()).Press("KeyC").AreRefused("noExam");
    }

    [Fact]
    public void Another_examiner_does_not_find_it_open()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD")).Press("KeyC");
        keys.Wait(400);
        keys.Take("who", new() { ["who"] = "CD" });

        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    [Fact]
    public void A_scan_is_never_read_as_its_key_and_a_grade()
    {
        keys.Shows(Boards.NothingAsked().Offering("OD"));
        Assert.Empty(keys.Scan("c2", apart: 12, enter: false).Judgements);
        keys.Wait(1000);
        Assert.Empty(keys.Scan("c123", enter: false).Judgements);
        keys.Wait(1000);
        keys.Press("Numpad2").AreRefused("nothingIsAsked");
    }

    private static System.Text.Json.Nodes.JsonObject Due(string what) =>
        (
            what switch
            {
                "direct" => Boards.DirectOf("OS"),
                "near" => Boards.NearOf("OS"),
                "swing" => Boards.Swing("short"),
                _ => Boards.ShapeOfBoth(),
            }
        ).Offering("OD", "OS");
}
