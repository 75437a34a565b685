using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class PseudoTerminalTests
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(30);

    [Fact]
    public async Task The_link_follows_the_device_and_goes_with_the_cable()
    {
        await using var terminal = new PseudoTerminal(TestLinks.Next());
        Assert.Equal(terminal.DevicePath, new FileInfo(terminal.LinkPath!).LinkTarget);

        terminal.Unplug();
        Assert.Null(terminal.DevicePath);
        Assert.Null(new FileInfo(terminal.LinkPath!).LinkTarget);

        terminal.Replug();
        Assert.Equal(terminal.DevicePath, new FileInfo(terminal.LinkPath!).LinkTarget);
    }

    [Fact]
    public async Task A_stale_link_of_an_earlier_run_is_replaced_but_a_file_is_not()
    {
        var stale = TestLinks.Next();
        Directory.CreateDirectory(Path.GetDirectoryName(stale)!);
        File.CreateSymbolicLink(stale, "/dev/pts/999999");
        await using (var terminal = new PseudoTerminal(stale))
        {
            Assert.Equal(terminal.DevicePath, new FileInfo(stale).LinkTarget);
        }

        var file = TestLinks.Next();
        await File.WriteAllTextAsync(file, "kept");
        var fault = Assert.Throws<PortOpenException>(() => new PseudoTerminal(file));
        Assert.Contains("move it away", fault.Message, StringComparison.Ordinal);
        Assert.Equal("kept", await File.ReadAllTextAsync(file));
        File.Delete(file);
    }

    [Fact]
    public async Task Closing_leaves_a_link_alone_that_another_run_has_taken_over()
    {
        var path = TestLinks.Next();
        var first = new PseudoTerminal(path);
        await using var second = new PseudoTerminal(path);

        await first.DisposeAsync();

        Assert.Equal(second.DevicePath, new FileInfo(path).LinkTarget);
    }

    [Fact]
    public async Task The_instrument_knows_whether_a_host_is_there_without_a_word_from_it()
    {
        await using var terminal = new PseudoTerminal(TestLinks.Next());
        Assert.False(terminal.HasHost);
        await using (await new PortOpeners(new PortSettings()).For(terminal.Address).OpenAsync())
        {
            Assert.True(terminal.HasHost);
        }

        Assert.False(terminal.HasHost);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_paced_line_is_no_faster_than_its_speed(bool fromInstrument)
    {
        // 480 bytes of ten bits at 9,600 baud take 500 ms; 20 ms of lateness may be made up for.
        await using var terminal = new PseudoTerminal(TestLinks.Next(), paceBaud: 9_600);
        await using var host = await new PortOpeners(new PortSettings()).For(terminal.Address).OpenAsync();
        IPort from = fromInstrument ? terminal : host;
        IPort to = fromInstrument ? host : terminal;
        var started = TimeProvider.System.GetTimestamp();

        var writing = from.WriteAsync(new byte[480], Deadline).AsTask();
        for (var have = 0; have < 480; )
        {
            have += await to.ReadAsync(new byte[480]).AsTask().WaitAsync(Deadline);
        }

        await writing;
        Assert.True(TimeProvider.System.GetElapsedTime(started) >= TimeSpan.FromMilliseconds(478));
    }

    [Fact]
    public async Task Without_a_link_the_device_itself_is_the_address()
    {
        await using var terminal = new PseudoTerminal();
        Assert.Equal(terminal.DevicePath, terminal.Address.Target);
        Assert.StartsWith("/dev/pts/", terminal.DevicePath, StringComparison.Ordinal);
    }
}
