using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;
using CommandOutcome = PupilBridge.Exams.Entries.CommandOutcome;

namespace PupilBridge.Worker.Tests.Sessions;

public sealed class InstrumentSessionLineTests
{
    [Fact]
    public void A_stall_is_noticed_within_three_seconds_and_a_tick_and_is_recorded()
    {
        var bench = new SessionBench().Connected();
        bench.ToHost = _ => [];
        var from = bench.At;
        bench.RunUntil(() => bench.Around.Ending is not null, within: 5);

        Assert.InRange((bench.At - from).TotalSeconds, 2, 3.25);
        Assert.Equal(PortPhase.Silent, bench.Around.Ending!.Value.Phase);
        bench.Run(0.1);
        var stalled = bench.Around.Recorded.OfType<LineChanged>().Last();
        Assert.Equal(LineState.Stalled, stalled.State);
        Assert.Contains("T-100", stalled.Reason, StringComparison.Ordinal);
        bench.Session.OnClosed("closed", bench.Now);
        bench.Run(0.1);
        Assert.Same(stalled, bench.Around.Recorded.OfType<LineChanged>().Last());
        Assert.False(bench.Around.Live!.IsConnected);
    }

    [Fact]
    public void Silence_after_switching_off_sends_nobody_to_look_after_a_cable()
    {
        var bench = new SessionBench().Connected();
        bench.Instrument.Say(
            new InstrumentEvent { Tick = bench.Instrument.TickAt(bench.At), Kind = InstrumentEventKind.SwitchedOff },
            bench.At
        );
        bench.Run(0.5);
        bench.ToHost = _ => [];
        bench.RunUntil(() => bench.Around.Ending is not null, within: 5);
        bench.Run(0.1);

        var ended = bench.Around.Recorded.OfType<LineChanged>().Last();
        Assert.Equal(LineState.Stalled, ended.State);
        Assert.Contains("T-100", ended.Reason, StringComparison.Ordinal);
        Assert.Contains("switched off", ended.Reason, StringComparison.Ordinal);
        Assert.DoesNotContain("cable", ended.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_port_that_says_nothing_stays_open_and_meets_the_instrument_when_it_is_switched_on()
    {
        var bench = new SessionBench();
        bench.Session.OnOpened(bench.Now);
        bench.Run(8);
        Assert.Equal(PortPhase.Silent, bench.Around.Phases[^1].Phase);
        Assert.Contains("Switch the instrument on", bench.Around.Phases[^1].Message, StringComparison.Ordinal);
        Assert.Null(bench.Around.Ending);

        bench.Instrument.SwitchOn(7, bench.At);
        bench.RunUntil(() => bench.Session.IsConnected, within: 1.2);
    }

    [Fact]
    public void A_port_that_says_nothing_for_half_a_minute_is_closed_and_opened_anew()
    {
        var bench = new SessionBench();
        bench.Session.OnOpened(bench.Now);
        bench.RunUntil(() => bench.Around.Ending is not null, within: 35);
        Assert.Equal(PortPhase.Silent, bench.Around.Ending!.Value.Phase);
        bench.Run(0.1);
        Assert.Empty(bench.Around.Recorded);
    }

    [Fact]
    public void A_wrong_baud_rate_is_named_as_such()
    {
        var bench = new SessionBench();
        var random = new Random(5);
        bench.ToHost = bytes => [.. bytes.Select(b => (byte)(b ^ random.Next(1, 256)))];
        bench.Begin();
        bench.Run(5);
        Assert.Equal(PortPhase.Silent, bench.Around.Phases[^1].Phase);
        Assert.Contains("baud rate (here 115200)", bench.Around.Phases[^1].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Garbage_and_endless_lines_throw_nothing_and_the_instrument_is_met_after_them()
    {
        var bench = new SessionBench();
        bench.Session.OnOpened(bench.Now);
        var garbage = new byte[100_000];
        new Random(6).NextBytes(garbage);
        bench.Session.OnBytes(garbage, bench.Now);
        bench.Session.OnBytes(Enumerable.Repeat((byte)'x', 10_000).ToArray(), bench.Now);
        Assert.True(bench.Session.Counters.TooLong > 0);

        bench.Instrument.SwitchOn(7, bench.At);
        bench.RunUntil(() => bench.Session.IsConnected, within: 3);
    }

    [Fact]
    public void An_instrument_that_claims_the_number_of_another_is_refused_and_nothing_of_it_is_taken()
    {
        var bench = new SessionBench();
        bench.Around.Elsewhere["T-100"] = "port-2";
        bench.Begin();
        bench.Instrument.Rest(Eye.Right, 1234, bench.At);
        bench.Run(3);

        var (phase, message) = bench.Around.Ending!.Value;
        Assert.Equal(PortPhase.WrongInstrument, phase);
        Assert.Contains("claims the serial number T-100, which is live on port-2", message, StringComparison.Ordinal);
        Assert.Empty(bench.Around.Recorded);
        Assert.Equal(0, bench.Around.Waiting);
        Assert.Equal(-1, bench.Around.AckSent);
        Assert.Equal(1, bench.Instrument.State.KeptCount);
    }

    [Fact]
    public void An_instrument_held_by_another_host_says_by_whom_and_is_taken_over_on_wish()
    {
        var bench = new SessionBench();
        bench.Instrument.SwitchOn(7, bench.At);
        bench.Instrument.Hear(Line(HostLine.Who(new HostId(0xFEED), 1, 1)), bench.At);
        bench.Instrument.ToHost.Clear();
        bench.Session.OnOpened(bench.Now);
        bench.Run(1);
        Assert.Equal(PortPhase.HeldByOther, bench.Around.Phases[^1].Phase);
        Assert.Contains("held by host 0000FEED", bench.Around.Phases[^1].Message, StringComparison.Ordinal);

        bench.Session.OnTakeOverWished(bench.Now);
        bench.RunUntil(() => bench.Session.IsConnected, within: 1);
        Assert.Equal(PortPhase.Live, bench.Around.Phases[^1].Phase);
    }

    [Fact]
    public void A_command_is_sent_only_after_its_wish_is_on_disk_and_its_outcome_is_recorded()
    {
        var bench = new SessionBench().Connected();
        bench.DiskTakes = 0;
        bench.Session.OnCommandWished(9, InstrumentCommand.Off, new PersonId("MK"), bench.Now);
        bench.Run(1);
        Assert.Empty(bench.Instrument.Commands);

        bench.DiskTakes = int.MaxValue;
        bench.RunUntil(() => bench.Instrument.Commands.Count > 0, within: 1);
        bench.Instrument.Answer(bench.Instrument.Commands[0], CommandAnswer.Ok, bench.At);
        bench.RunUntil(() => bench.Around.CommandsEnded.Count > 0, within: 1);
        bench.Run(0.1);

        Assert.Equal(
            (9u, CommandOutcome.Done),
            (bench.Around.CommandsEnded[0].Number, bench.Around.CommandsEnded[0].Outcome)
        );
        var wished = Assert.Single(bench.Around.Recorded.OfType<CommandWished>());
        Assert.Equal(("OFF", "MK"), (wished.Command, wished.Who!.Value.Value));
        Assert.Equal(CommandOutcome.Done, Assert.Single(bench.Around.Recorded.OfType<CommandEnded>()).Outcome);
    }

    [Fact]
    public void A_command_always_ends_even_if_the_line_is_lost_or_the_instrument_does_not_answer()
    {
        var bench = new SessionBench().Connected();
        bench.Session.OnCommandWished(1, InstrumentCommand.Off, null, bench.Now);
        bench.Run(5);
        Assert.Equal(CommandOutcome.NoReply, bench.Around.CommandsEnded[0].Outcome);

        bench.Session.OnCommandWished(2, InstrumentCommand.Off, null, bench.Now);
        bench.Run(0.5);
        bench.Session.OnClosed("unplugged", bench.Now);
        Assert.Equal(
            (2u, CommandOutcome.NoReply),
            (bench.Around.CommandsEnded[1].Number, bench.Around.CommandsEnded[1].Outcome)
        );
        bench.Session.OnCommandWished(3, InstrumentCommand.Off, null, bench.Now);
        Assert.Equal(3u, bench.Around.CommandsEnded[2].Number);
    }

    [Fact]
    public void Event_times_are_estimated_from_heartbeats_and_late_events_keep_theirs()
    {
        var bench = new SessionBench().Connected();
        bench.Run(20);
        bench.Session.OnClosed("unplugged", bench.Now);
        var happened = bench.Now.At;
        bench.Instrument.Rest(Eye.Right, 1234, bench.At);
        for (var i = 0; i < 50; i++)
            bench.Instrument.Pass(bench.At + TimeSpan.FromSeconds(i));
        bench.Instrument.ToHost.Clear();
        bench.Run(50);
        bench.Reopen();
        bench.RunUntil(() => bench.Around.Recorded.OfType<InstrumentReported>().Any());

        var late = bench.Around.Recorded.OfType<InstrumentReported>().Single();
        Assert.InRange(late.ArrivedAt.MillisecondsSince(happened), 50_000, 60_000);
        Assert.InRange(Math.Abs(late.HappenedAt.MillisecondsSince(happened)), 0, late.UncertaintyMilliseconds);
        Assert.InRange(late.UncertaintyMilliseconds, 1, 200);
    }

    [Fact]
    public void Live_positions_and_lamps_are_shown_at_once_and_positions_are_never_recorded()
    {
        var bench = new SessionBench().Connected();
        bench.DiskTakes = 0;
        bench.Instrument.Move(Eye.Left, 4321, bench.At);
        bench.Instrument.Say(
            InstrumentEvent.LampSwitched(bench.Instrument.TickAt(bench.At), Eye.Right, true, 80),
            bench.At
        );
        bench.Run(0.1);
        var live = bench.Around.Live!;
        Assert.Equal((4321, true), (live.Scales.Left.Position!.Value.Value, live.Scales.Left.IsMoving));
        Assert.Equal((true, 80), (live.Lamps.Right.IsOn, live.Lamps.Right.LevelPercent));
        Assert.Equal(0, live.Recorded);

        bench.Run(0.9);
        bench.Instrument.Say(
            InstrumentEvent.LampSwitched(bench.Instrument.TickAt(bench.At), Eye.Right, false, 0),
            bench.At
        );
        bench.DiskTakes = int.MaxValue;
        bench.Run(1);
        Assert.Equal(1000, bench.Around.Live!.Lamps.Right.LastDwell!.Value.TotalMilliseconds);
        Assert.Equal(2, bench.Around.Recorded.OfType<InstrumentReported>().Count());
    }

    private static byte[] Line(HostLine line)
    {
        var bytes = new byte[120];
        return bytes[..PupilBridge.Instrument.Wire.HostLineEncoder.Encode(line, bytes)];
    }
}
