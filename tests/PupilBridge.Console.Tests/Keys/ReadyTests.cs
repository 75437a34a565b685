namespace PupilBridge.Console.Tests.Keys;

public sealed class ReadyTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Fact]
    public void A_complete_exam_is_made_ready_by_one_Enter() =>
        Assert.Equal(["makeReady"], keys.Shows(Boards.ReadyAsked()).Press("NumpadEnter").Kinds);

    [Fact]
    public void The_first_Enter_names_what_is_missing_and_enters_nothing()
    {
        var effects = keys.Shows(Boards.DirectOf("OD").Missing("direct", "swing-long")).Press("Enter");

        effects.AreRefused("isMissing");
        var list = effects.Of("say").Single()["list"]!.AsArray().Select(one => one!.GetValue<string>());
        Assert.Equal(["direct is not done", "swing-long is not done"], list);
    }

    [Fact]
    public void A_second_Enter_accepts_that_it_was_not_examined_and_makes_ready()
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct", "swing-long")).Press("Enter");
        keys.Wait(500);
        var effects = keys.Press("Enter");

        Assert.Equal(["notExamined", "makeReady"], effects.Kinds);
        var steps = effects.Entries[0]["steps"]!.AsArray().Select(one => one!.GetValue<string>());
        Assert.Equal(["direct", "swing-long"], steps);
        Assert.NotEqual(
            effects.Entries[0]["entryId"]!.GetValue<string>(),
            effects.Entries[1]["entryId"]!.GetValue<string>()
        );
    }

    [Fact]
    public void Nothing_is_ever_entered_but_not_examined()
    {
        keys.Shows(Boards.ShapeOfBoth().Missing("shape", "direct", "swing-short", "swing-long")).Press("Enter");
        keys.Wait(500);

        Assert.Empty(keys.Press("Enter").Judgements);
    }

    [Theory]
    [InlineData(150)]
    [InlineData(380)]
    public void A_hasty_second_Enter_accepts_nothing(double after)
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct")).Press("Enter");
        keys.Wait(after - 100);

        Assert.Empty(keys.Press("Enter").Entries);
    }

    [Fact]
    public void A_late_second_Enter_is_a_first_one_again()
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct")).Press("Enter");
        keys.Wait(10_500);

        keys.Press("Enter").AreRefused("isMissing");
    }

    [Fact]
    public void A_second_Enter_after_something_changed_is_a_first_one_again()
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct", "swing-long")).Press("Enter");
        keys.Wait(500);
        keys.Shows(Boards.DirectOf("OD").Missing("swing-long"));

        var effects = keys.Press("Enter");
        Assert.Empty(effects.Entries);
        Assert.Equal(["isMissing"], effects.Said);
    }

    [Fact]
    public void A_second_Enter_after_another_key_is_a_first_one_again()
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct", "swing-long")).Press("Enter");
        keys.Wait(500);
        keys.Press("Numpad3");
        keys.Wait(500);

        Assert.Empty(keys.Press("Enter").Entries);
    }

    [Fact]
    public void Enter_held_accepts_nothing()
    {
        keys.Shows(Boards.DirectOf("OD").Missing("direct"));
        var all = keys.Down("Enter").And(keys.Wait(500));
        for (var i = 0; i < 60; i++)
        {
            all = all.And(keys.Down("Enter", repeat: true)).And(keys.Wait(30));
        }

        Assert.Empty(all.Entries);
    }

    [Fact]
    public void Enter_waits_for_what_is_not_recorded_yet()
    {
        keys.Shows(Boards.ReadyAsked()).Take("waiting", new() { ["count"] = 1 });
        keys.Press("Enter").AreRefused("notRecordedYet");

        keys.Take("waiting", new() { ["count"] = 0 });
        keys.Wait(400);
        Assert.Equal(["makeReady"], keys.Press("Enter").Kinds);
    }

    [Fact]
    public void Enter_for_an_exam_that_went_away_meanwhile_does_nothing_to_the_next_one()
    {
        keys.Shows(Boards.ReadyAsked()).Down("Enter");
        keys.Wait(20);
        keys.Shows(Boards.DirectOf("OD", exam: 50));

        keys.Wait(100).AreRefused("examChanged");
    }

    [Fact]
    public void Enter_without_an_exam_or_on_one_that_is_over_is_refused()
    {
        keys.Shows(Boards.NoExam()).Press("Enter").AreRefused("noExamForReady");
        keys.Wait(400);
        keys.Shows(Boards.ReadyAsked().Status("ready")).Press("Enter").AreRefused("examIsOver");
    }
}
