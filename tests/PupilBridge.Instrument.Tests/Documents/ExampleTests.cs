using System.Text;
using PupilBridge.Instrument.Tests.Wire;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>The examples of the protocol's page are test vectors.</summary>
public class ExampleTests
{
    [Theory]
    [MemberData(nameof(Examples), "wire")]
    public void Every_example_is_read_and_written_again_to_the_same_bytes(string example)
    {
        var bytes = Encoding.ASCII.GetBytes(example);
        var (instrument, host) = Read(bytes);
        Assert.True(instrument.Kind != InstrumentLineKind.Unknown ^ host.Kind != HostLineKind.Unknown);
        var written = instrument.Kind != InstrumentLineKind.Unknown ? Lines.Of(instrument) : Lines.Of(host);
        // Abilities come in any order; a reader may write them in its own.
        if (instrument.Kind == InstrumentLineKind.Identity)
            Assert.Equal(bytes.Length + 1, written.Length);
        else
            Assert.Equal(example + "\n", Encoding.ASCII.GetString(written));
    }

    [Fact]
    public void The_examples_show_every_type_every_kind_and_every_command()
    {
        var read = ProtocolDocument.Lines("wire").Select(e => Read(Encoding.ASCII.GetBytes(e))).ToArray();
        AssertShown(read.Select(r => r.Instrument.Kind));
        AssertShown(read.Select(r => r.Host.Kind));
        var events = read.Where(r => r.Instrument.Kind == InstrumentLineKind.Event).Select(r => r.Instrument.Event);
        var unreadable = new[] { InstrumentEventKind.Unknown, InstrumentEventKind.Unreadable };
        AssertShown(events.Select(e => e.Kind).Concat(unreadable));
        AssertShown(
            read.Where(r => r.Instrument.Kind == InstrumentLineKind.Reply)
                .Select(r => r.Instrument.Reply.Answer)
                .Append(CommandAnswer.None)
        );
        AssertShown(
            read.Where(r => r.Host.Kind == HostLineKind.Command)
                .Select(r => r.Host.Command.Kind)
                .Concat([InstrumentCommandKind.Unknown, InstrumentCommandKind.Unreadable])
        );
    }

    [Theory]
    [MemberData(nameof(Examples), "wire-newer")]
    public void Lines_of_a_newer_side_are_no_fault(string example)
    {
        var bytes = Encoding.ASCII.GetBytes(example);
        var (instrument, host) = Read(bytes);
        var passedOver = instrument.Kind == InstrumentLineKind.Unknown && host.Kind == HostLineKind.Unknown;
        var kept =
            instrument.Kind == InstrumentLineKind.Event && instrument.Event.Kind <= InstrumentEventKind.Unreadable;
        var asked = host.Kind == HostLineKind.Command && host.Command.Kind == InstrumentCommandKind.Unknown;
        // What is none of these has a further field: it reads as the line without it.
        if (!passedOver && !kept && !asked)
        {
            var known = instrument.Kind != InstrumentLineKind.Unknown ? Lines.Of(instrument) : Lines.Of(host);
            Assert.StartsWith(Encoding.ASCII.GetString(known[..^10]), example, StringComparison.Ordinal);
            Assert.True(known.Length < bytes.Length + 1);
        }
    }

    [Theory]
    [MemberData(nameof(Examples), "wire-bad")]
    public void Bad_lines_are_dropped_for_the_reason_that_stands_before_them(string example)
    {
        var parts = example.Split("  ", 2, StringSplitOptions.TrimEntries);
        Assert.False(InstrumentLineDecoder.TryDecode(Encoding.ASCII.GetBytes(parts[1]), out _, out var fault));
        Assert.Equal(parts[0], fault.Kind.ToString());
    }

    public static TheoryData<string> Examples(string tag) => [.. ProtocolDocument.Lines(tag)];

    private static (InstrumentLine Instrument, HostLine Host) Read(byte[] bytes)
    {
        Assert.True(InstrumentLineDecoder.TryDecode(bytes, out var instrument, out var fault), fault.Describe());
        Assert.True(HostLineDecoder.TryDecode(bytes, out var host, out fault), fault.Describe());
        return (instrument, host);
    }

    private static void AssertShown<T>(IEnumerable<T> shown)
        where T : struct, Enum => Assert.Empty(Enum.GetValues<T>().Except(shown));
}
