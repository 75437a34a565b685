using System.Text;
using CsCheck;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

public class DecoderTests
{
    private const string Boot = "8F3A11C02B77D4E9";

    [Fact]
    public void One_flipped_bit_anywhere_is_noticed()
    {
        var line = Lines.Sealed($"EV,{Boot},17,90210,REST,L,5231");
        for (var bit = 0; bit < line.Length * 8; bit++)
        {
            var flipped = line.ToArray();
            flipped[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.False(InstrumentLineDecoder.TryDecode(flipped, out _, out var fault));
            Assert.True(fault.Kind is LineFaultKind.NoCheck or LineFaultKind.BadCheck, $"bit {bit}: {fault}");
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("*00000000")]
    [InlineData("A*D3D99E8b")]
    [InlineData("A*D3D99E8")]
    [InlineData("A D3D99E8B")]
    [InlineData("AD3D99E8B*")]
    [InlineData("A*D3D99E:B")]
    [InlineData("A*D3D99E@B")]
    [InlineData("A*D3D99E/B")]
    [InlineData("A*D3D99EGB")]
    public void A_line_without_its_check_is_told_as_such(string line)
    {
        Assert.False(InstrumentLineDecoder.TryDecode(Encoding.ASCII.GetBytes(line), out _, out var fault));
        Assert.Equal(LineFaultKind.NoCheck, fault.Kind);
    }

    [Theory]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,OFF,\u00E4")]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,OFF,\t")]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,OFF,*")]
    public void A_byte_that_no_line_may_hold_is_told_even_if_the_check_is_right(string body) =>
        Assert.Equal(LineFaultKind.ForbiddenByte, Lines.FaultOf(body).Kind);

    [Theory]
    [InlineData("EV,8f3a11c02b77d4e9,1,5,OFF", 1)]
    [InlineData("EV,8F3A11C02B77D4E,1,5,OFF", 1)]
    [InlineData("EV,8F3A11C02B77D4E9,0,5,OFF", 2)]
    [InlineData("EV,8F3A11C02B77D4E9,01,5,OFF", 2)]
    [InlineData("EV,8F3A11C02B77D4E9,+1,5,OFF", 2)]
    [InlineData("EV,8F3A11C02B77D4E9,,5,OFF", 2)]
    [InlineData("EV,8F3A11C02B77D4E9,9007199254740993,5,OFF", 2)]
    [InlineData("EV,8F3A11C02B77D4E9,1,-5,OFF", 3)]
    [InlineData("EV,8F3A11C02B77D4E9,1,9223372036854775808,OFF", 3)]
    [InlineData("EV,8F3A11C02B77D4E9,1,99999999999999999999999,OFF", 3)]
    [InlineData("EV,8F3A11C02B77D4E9,1,5", 4)]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,", 4)]
    [InlineData("POS,R,100000,5", 2)]
    [InlineData("POS,X,10000,5", 1)]
    [InlineData("POS,R,10000", 3)]
    [InlineData("BEAT,8F3A11C02B77D4E9,5,0,0,-", 3)]
    [InlineData("BEAT,8F3A11C02B77D4E9,5,12,10,-", 4)]
    [InlineData("BEAT,8F3A11C02B77D4E9,5,1,0,101", 5)]
    [InlineData("STOP,33,IDLE,-", 1)]
    [InlineData("STOP,1,REST,-", 2)]
    [InlineData("SCALE,R,0,IN,10,500,400", 6)]
    [InlineData("SCALE,R,100,IN,10,500,600", 6)]
    [InlineData("HELD,00000000,5", 1)]
    [InlineData("NOVERSION,3,2", 2)]
    [InlineData("DONE,00C0FFEE,0,OK", 2)]
    [InlineData("DONE,00C0FFEE,1,ok", 3)]
    [InlineData("ID,1,QA 1,Quay-A,1.0,8F3A11C02B77D4E9,-,1,0,-", 2)]
    [InlineData("ID,1,QA-1,Quay-A,1.0,8F3A11C02B77D4E9,m,1,0,-", 6)]
    [InlineData("ID,1,QA-1,Quay-A,1.0,8F3A11C02B77D4E9,M,1,5,-", 9)]
    [InlineData("ID,1,QA-1,Quay-A,1.0,8F3A11C02B77D4E9,M,1,0,00C0FFEE", 9)]
    public void A_field_that_cannot_be_read_is_named_by_its_place(string body, int field) =>
        Assert.Equal(new LineFault(LineFaultKind.BadField, field), Lines.FaultOf(body));

    [Theory]
    [InlineData("SPARKLE,1,2,3")]
    [InlineData("EVE,1")]
    [InlineData("ev,1")]
    [InlineData("POS2,R")]
    public void A_type_that_is_not_known_is_no_fault(string body) =>
        Assert.Equal(InstrumentLineKind.Unknown, Lines.Decoded(body).Kind);

    [Theory]
    [InlineData("BLINK,R,3", InstrumentEventKind.Unknown)]
    [InlineData("MODE,CALIBRATE,-,DIAL", InstrumentEventKind.Unreadable)]
    [InlineData("LAMP,R,ON,101", InstrumentEventKind.Unreadable)]
    [InlineData("REST,R", InstrumentEventKind.Unreadable)]
    [InlineData("ROOM,DUSK", InstrumentEventKind.Unreadable)]
    [InlineData("OUTPUT,R,1000000000", InstrumentEventKind.Unreadable)]
    [InlineData("OUTPUT,X,5", InstrumentEventKind.Unreadable)]
    [InlineData("GAP,8", InstrumentEventKind.Unreadable)]
    public void An_event_of_a_newer_instrument_keeps_its_number(string rest, InstrumentEventKind kind)
    {
        var read = Lines.Decoded($"EV,{Boot},7,90210,{rest}").Event;
        Assert.Equal(kind, read.Kind);
        Assert.Equal((7, 90210), (read.Sequence, read.Tick.Milliseconds));
        Assert.Equal(Boot, read.Boot.ToString());
    }

    [Theory]
    [InlineData("EV,8F3A11C02B77D4E9,7,90210,REST,L,5231", ",7")]
    [InlineData("POS,R,5000,12", ",,,")]
    [InlineData("DONE,00C0FFEE,3,OK,", ",more")]
    [InlineData("BEAT,8F3A11C02B77D4E9,5,1,0,-", ",x y")]
    public void Fields_beyond_the_known_ones_are_passed_over(string body, string more)
    {
        var (plain, extended) = (Lines.Decoded(body), Lines.Decoded(body + more));
        Assert.Equal(plain.Kind, extended.Kind);
        Assert.NotEqual(plain.Crc, extended.Crc);
    }

    [Fact]
    public void A_command_that_cannot_be_read_still_has_its_number()
    {
        Assert.True(HostLineDecoder.TryDecode(Lines.Sealed("CMD,00C0FFEE,9,TRAIN,DIRECT,0,5,5"), out var line, out _));
        Assert.Equal(InstrumentCommandKind.Unreadable, line.Command.Kind);
        Assert.True(HostLineDecoder.TryDecode(Lines.Sealed("CMD,00C0FFEE,9,DANCE"), out line, out _));
        Assert.Equal(InstrumentCommandKind.Unknown, line.Command.Kind);
        Assert.Equal(9u, line.CommandNumber);
    }

    [Fact]
    public void Garbage_never_throws() =>
        Gen
            .Byte.Array[0, 200]
            .Sample(
                bytes =>
                {
                    InstrumentLineDecoder.TryDecode(bytes, out _, out _);
                    HostLineDecoder.TryDecode(bytes, out _, out _);
                },
                iter: 20_000
            );

    [Fact]
    public void Garbage_with_a_right_check_never_throws() =>
        Gen.Select(
                Gens.Any("EV", "ID", "BEAT", "STOP", "SCALE", "POS", "DONE", "HELD", "NOVERSION", "CMD", "ACK", "WHO"),
                Gen.OneOf(
                    Gen.Const(Boot),
                    Gen.Const("00C0FFEE"),
                    Gen.Const("R"),
                    Gens.Text(0, 6),
                    Gen.Const("7")
                ).Array[0, 10]
            )
            .Sample(
                (type, fields) =>
                {
                    var line = Lines.Sealed(string.Join(',', fields.Prepend(type)));
                    InstrumentLineDecoder.TryDecode(line, out _, out _);
                    HostLineDecoder.TryDecode(line, out _, out _);
                },
                iter: 20_000
            );

    [Fact]
    public void Every_fault_says_something_to_a_person()
    {
        var texts = Enum.GetValues<LineFaultKind>().Select(k => new LineFault(k, 3).Describe()).ToArray();
        Assert.Equal(texts.Length, texts.Distinct().Count());
        Assert.Contains("field 3", texts[^1], StringComparison.Ordinal);
    }
}
