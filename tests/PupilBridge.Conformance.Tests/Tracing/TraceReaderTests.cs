using System.Text;
using PupilBridge.Conformance.Lines;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Conformance.Tests.Tracing;

/// <summary>Lines of docs/protocol.md, their meaning, and why others are dropped.</summary>
public sealed class TraceReaderTests
{
    private const string Beat = "BEAT,8F3A11C02B77D4E9,26000,5,6,81*DA19463A";

    [Theory]
    [InlineData(Beat, "tick 26000 ms, oldest kept 5, last event 6, battery 81 %")]
    [InlineData("BEAT,1D20C4B89E6A7F35,1000,1,0,-*178404C5", "nothing kept, last event 0")]
    [InlineData("POS,L,13720,25311*F33ACEB4", "left eye, scale moves at 13720 µm, tick 25311 ms")]
    [InlineData("EV,8F3A11C02B77D4E9,5,23871,EDGE,R,N,8230*18F728FA", "right eye, nasal edge marked at 8230 µm")]
    [InlineData(
        "EV,8F3A11C02B77D4E9,2,12,ROOM,LUX,4200*2B39F623",
        "event 2 of boot 8F3A11C02B77D4E9, tick 12 ms: room at 4.2 lx"
    )]
    [InlineData("EV,1D20C4B89E6A7F35,7,30500,OUTPUT,R,203400*4B5C7024", "right eye, lamp measured at 203.4 lx")]
    [InlineData("EV,1D20C4B89E6A7F35,900,4000311,GAP,120*022E1B1D", "events 120 to 900 are lost")]
    [InlineData("EV,8F3A11C02B77D4E9,12,90210,BLINK,R,3*122522FD", "a kind that this version does not know")]
    [InlineData("TEMPERATURE,31,4*0D28796F", "a type that this version does not know")]
    [InlineData("ID,1,QA-0001,Quay-A,1.4.0,8F3A11C02B77D4E9,MLPOFB,7,0,-*9693DFF0", "7 stops, nothing acknowledged")]
    [InlineData(
        "SCALE,L,16000,IN,50,500,18000*DFD9491D",
        "home 16000 µm, grows towards the nose, steps of 50 µm, 500 to 18000 µm"
    )]
    [InlineData(
        "DONE,00C0FFEE,18,REFUSED,dial is not in idle*4473F7E2",
        "command 18 of host 00C0FFEE: refused (dial is not in idle)"
    )]
    [InlineData("HELD,00C0FFEE,4*0A708A5F", "held by host 00C0FFEE, heard 4 s ago")]
    [InlineData("NOVERSION,2,3*E6C9F0B5", "the instrument speaks 2 to 3")]
    public void A_line_of_an_instrument_is_told_in_words(string line, string words)
    {
        var traced = new TraceReader().Read(Line(line));
        Assert.False(traced.IsDropped);
        Assert.Contains(words, traced.Words, StringComparison.Ordinal);
        Assert.Equal(line[..line.IndexOf(',', StringComparison.Ordinal)], traced.Type);
    }

    [Theory]
    [InlineData("WHO,00C0FFEE,1,1*25724FA4", "host 00C0FFEE asks who is there")]
    [InlineData("ACK,00C0FFEE,8F3A11C02B77D4E9,6*349BE4A0", "on disk up to 6")]
    [InlineData("RESEND,00C0FFEE,8F3A11C02B77D4E9,5*70E5BA36", "again from 5")]
    [InlineData("CMD,00C0FFEE,18,TRAIN,DIRECT,3,1000,3000*B3F18778", "command 18: train for block direct, 3 stimuli")]
    public void A_line_of_a_host_is_told_in_words(string line, string words)
    {
        var traced = new TraceReader().Read(Line(line) with { Way = LineWay.FromHost });
        Assert.False(traced.IsDropped);
        Assert.Contains(words, traced.Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("POS,R,5120,90210", "does not end in '*'")]
    [InlineData("POS,R,5120,90210*8a3b", "does not end in '*'")]
    [InlineData("POS,R,5120,90210*00000000", "checksum is wrong")]
    [InlineData("BEAT,8F3A11C02B77D4E9,26000,5*4AA1609F", "field 4")]
    [InlineData("", "blank line")]
    public void A_line_that_a_receiver_drops_is_told_with_the_reason(string line, string why)
    {
        var reader = new TraceReader();
        reader.Read(Line(Beat));
        var traced = reader.Read(Line(line));
        Assert.True(traced.IsDropped);
        Assert.Contains(why, traced.Words, StringComparison.Ordinal);
        Assert.DoesNotContain("first line", traced.Words, StringComparison.Ordinal);
        Assert.False(reader.Read(Line(Beat)).IsDropped);
    }

    [Fact]
    public void A_run_without_an_end_is_dropped_up_to_the_next_line_end_and_the_line_after_it_is_read()
    {
        var splitter = new LineSplitter(LineWay.FromInstrument);
        var reader = new TraceReader();
        var bytes = Encoding.ASCII.GetBytes(new string('A', 300) + Beat + "\n" + Beat + "\n");
        var traced = bytes.SelectMany(b => splitter.Take([b], TimeSpan.Zero)).Select(reader.Read).ToList();
        Assert.Equal([true, true, true, false], traced.Select(t => t.IsDropped));
        Assert.Contains("too long", traced[0].Words, StringComparison.Ordinal);
        Assert.Equal(Beat, traced[3].Line.Text);
    }

    [Fact]
    public void The_first_line_may_have_been_cut_by_the_opening_of_the_port() =>
        Assert.Contains(
            "opened in its middle",
            new TraceReader().Read(Line(Beat[7..])).Words,
            StringComparison.Ordinal
        );

    private static WireLine Line(string text) =>
        new(TimeSpan.Zero, LineWay.FromInstrument, Encoding.Latin1.GetBytes(text), IsEnded: true);
}
