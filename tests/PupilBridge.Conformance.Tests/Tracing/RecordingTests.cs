using System.Text;
using PupilBridge.Conformance.Lines;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Conformance.Tests.Tracing;

/// <summary>The text format of recorded lines.</summary>
public sealed class RecordingTests
{
    [Fact]
    public void Any_bytes_come_back_as_they_were()
    {
        var all = Enumerable.Range(0, 256).Select(i => (byte)i).Where(b => b != '\n').ToArray();
        foreach (var chunk in all.Chunk(100).Append([]).Append(@"\x41\\"u8.ToArray()).Append("  "u8.ToArray()))
        {
            foreach (var way in Enum.GetValues<LineWay>())
            {
                foreach (var isEnded in (bool[])[true, false])
                {
                    var line = new WireLine(TimeSpan.FromMilliseconds(1234567), way, chunk, isEnded);
                    var text = Recording.LineOf(line);
                    Assert.DoesNotContain(text, c => c is < ' ' or > '~');
                    Assert.True(Recording.TryRead(text, out var read));
                    Assert.Equal(line with { Bytes = default }, read! with { Bytes = default });
                    Assert.Equal(chunk, read.Bytes.ToArray());
                }
            }
        }
    }

    [Fact]
    public void A_line_reads_as_documented() =>
        Assert.Equal(
            @"     0.300 <  STOP,2,IDLE,-*8D845B28\x0D",
            Recording.LineOf(
                new WireLine(
                    TimeSpan.FromSeconds(0.3),
                    LineWay.FromInstrument,
                    Encoding.ASCII.GetBytes("STOP,2,IDLE,-*8D845B28\r"),
                    IsEnded: true
                )
            )
        );

    [Theory]
    [InlineData("0.3")]
    [InlineData("0.3 ?  A")]
    [InlineData("-1.0 <  A")]
    [InlineData("x <  A")]
    [InlineData("0,3 <  A")]
    [InlineData(@"0.3 <  \x4")]
    [InlineData(@"0.3 <  \n")]
    [InlineData("0.3 <  ä")]
    [InlineData("0.3 <A")]
    [InlineData("99999999999 <  A")]
    public void What_is_no_line_of_a_recording_is_refused(string text) => Assert.False(Recording.TryRead(text, out _));

    [Fact]
    public void A_head_is_comments_only() =>
        Assert.All(
            Recording.Head("/dev/ttyACM0", DateTimeOffset.UnixEpoch),
            text =>
            {
                Assert.True(Recording.TryRead(text, out var line));
                Assert.Null(line);
            }
        );
}
