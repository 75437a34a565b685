using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public class InstrumentLinkCommandTests
{
    private static readonly InstrumentCommand Train = InstrumentCommand.Train(Block.Near, 1, 500, 0);

    [Fact]
    public void A_command_is_executed_once_and_its_reply_repeated_with_its_number()
    {
        var rig = InstrumentRig.Greeted();
        Assert.Equal([new InstrumentLinkOutput.Execute(Known.Host, 7, Train)], Ask(rig, 7, Train));
        Assert.Empty(Ask(rig, 7, Train));
        Assert.Equal(["DONE,00C0FFEE,7,OK"], Decide(rig, 7, CommandAnswer.Ok));
        Assert.Equal(["DONE,00C0FFEE,7,OK"], rig.Hear(HostLine.Ask(Known.Host, 7, Train)));
        Assert.Empty(Decide(rig, 7, CommandAnswer.Refused));
    }

    [Fact]
    public void While_one_is_undecided_another_finds_it_busy_and_may_come_again()
    {
        var rig = InstrumentRig.Greeted();
        Ask(rig, 7, Train);
        Assert.Equal(["DONE,00C0FFEE,8,BUSY"], rig.Hear(HostLine.Ask(Known.Host, 8, InstrumentCommand.Off)));
        Decide(rig, 7, CommandAnswer.Ok);
        Assert.IsType<InstrumentLinkOutput.Execute>(Assert.Single(Ask(rig, 8, InstrumentCommand.Off)));
    }

    [Fact]
    public void What_it_does_not_know_or_cannot_read_it_answers_by_itself()
    {
        var rig = InstrumentRig.Greeted();
        Assert.Equal(["DONE,00C0FFEE,1,UNKNOWN"], rig.Hear(HostLine.Ask(Known.Host, 1, default)));
        var unreadable = default(InstrumentCommand) with { Kind = InstrumentCommandKind.Unreadable };
        Assert.Equal(
            ["DONE,00C0FFEE,2,REFUSED,fields out of range"],
            rig.Hear(HostLine.Ask(Known.Host, 2, unreadable))
        );
    }

    [Fact]
    public void The_same_number_of_another_host_is_another_command()
    {
        var rig = InstrumentRig.Greeted();
        Ask(rig, 7, Train);
        Decide(rig, 7, CommandAnswer.Ok);
        rig.Hear(HostLine.Take(Known.OtherHost, 1, 1));
        var outputs = rig.GiveRaw(
            new InstrumentLinkInput.HostLineArrived(HostLine.Ask(Known.OtherHost, 7, Train), rig.Now, rig.Tick)
        );
        Assert.Equal(new InstrumentLinkOutput.Execute(Known.OtherHost, 7, Train), Assert.Single(outputs));
    }

    [Fact]
    public void A_host_that_does_not_hold_it_commands_nothing()
    {
        var rig = InstrumentRig.Greeted();
        Assert.Equal(["HELD,00C0FFEE,0"], rig.Hear(HostLine.Ask(Known.OtherHost, 7, Train)));
    }

    [Fact]
    public void The_last_sixteen_replies_are_remembered()
    {
        var rig = InstrumentRig.Greeted();
        for (var number = 1u; number <= 17; number++)
        {
            Ask(rig, number, Train);
            Decide(rig, number, CommandAnswer.Ok);
        }

        Assert.Equal(["DONE,00C0FFEE,2,OK"], rig.Hear(HostLine.Ask(Known.Host, 2, Train)));
        Assert.IsType<InstrumentLinkOutput.Execute>(Assert.Single(Ask(rig, 1, Train)));
    }

    private static InstrumentLinkOutput[] Ask(InstrumentRig rig, uint number, InstrumentCommand command) =>
        [
            .. rig.GiveRaw(
                new InstrumentLinkInput.HostLineArrived(HostLine.Ask(Known.Host, number, command), rig.Now, rig.Tick)
            ),
        ];

    private static string[] Decide(InstrumentRig rig, uint number, CommandAnswer answer) =>
        rig.Give(new InstrumentLinkInput.CarriedOut(Known.Host, number, answer, "", rig.Now, rig.Tick));
}
