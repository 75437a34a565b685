using System.Text;
using Moq;
using PupilBridge.Ports;
using PupilBridge.Worker.Lines;

namespace PupilBridge.Worker.Tests.Lines;

public sealed class OutgoingLineTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(1);
    private readonly List<string> written = [];
    private readonly List<Exception> lost = [];

    private OutgoingLine Line(Func<Task> whenWritten)
    {
        var port = new Mock<IPort>(MockBehavior.Strict);
        port.Setup(p => p.WriteAsync(It.IsAny<ReadOnlyMemory<byte>>(), Limit))
            .Returns(
                (ReadOnlyMemory<byte> bytes, TimeSpan _) =>
                {
                    written.Add(Encoding.ASCII.GetString(bytes.Span));
                    return new ValueTask(whenWritten());
                }
            );
        return new OutgoingLine(port.Object, Limit, lost.Add);
    }

    [Fact]
    public void Lines_put_together_go_out_in_one_write_on_the_callers_thread()
    {
        var line = Line(() => Task.CompletedTask);
        line.Put("one\n"u8);
        line.Put("two\n"u8);
        Assert.Empty(written);
        line.Flush();
        Assert.Equal(["one\ntwo\n"], written);
        line.Flush();
        Assert.Single(written);
    }

    [Fact]
    public async Task What_comes_during_a_write_waits_for_nobody_and_goes_with_the_next_one()
    {
        var first = new TaskCompletionSource();
        var line = Line(() => written.Count == 1 ? first.Task : Task.CompletedTask);
        line.Put("one\n"u8);
        line.Flush();
        line.Put("two\n"u8);
        line.Flush();
        line.Put("three\n"u8);
        line.Flush();
        Assert.Equal(["one\n"], written);

        first.SetResult();
        await Eventually.Is(() => written.Count == 2);
        Assert.Equal(["one\n", "two\nthree\n"], written);
    }

    [Fact]
    public void A_failed_write_is_told_once_and_nothing_is_written_after_it()
    {
        var line = Line(() => Task.FromException(new PortLostException("p", "it did not take a write in time.")));
        line.Put("one\n"u8);
        line.Flush();
        line.Put("two\n"u8);
        line.Flush();
        Assert.Single(written);
        Assert.IsType<PortLostException>(Assert.Single(lost));
    }

    [Fact]
    public void A_port_that_takes_nothing_does_not_fill_the_memory()
    {
        var line = Line(() => new TaskCompletionSource().Task);
        line.Put("first\n"u8);
        line.Flush();
        for (var i = 0; i < 100_000; i++)
            line.Put("another line\n"u8);
        line.Flush();
        Assert.Equal(["first\n"], written);
    }
}
