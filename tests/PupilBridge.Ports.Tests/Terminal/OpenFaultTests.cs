using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class OpenFaultTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pupilbridge-faults-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("terminal")]
    [InlineData("serial")]
    public async Task A_port_that_is_not_there_is_missing(string adapter)
    {
        var fault = await Fault(adapter, Path.Combine(folder, "absent"));
        Assert.Equal(PortOpenFault.Missing, fault.Fault);
        Assert.Contains("There is no port", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("terminal")]
    [InlineData("serial")]
    public async Task A_link_to_nowhere_is_missing(string adapter)
    {
        var link = Path.Combine(folder, "link");
        File.CreateSymbolicLink(link, Path.Combine(folder, "absent"));
        Assert.Equal(PortOpenFault.Missing, (await Fault(adapter, link)).Fault);
    }

    [Theory]
    [InlineData("terminal")]
    [InlineData("serial")]
    public async Task A_folder_is_told_as_such(string adapter)
    {
        Assert.Equal(PortOpenFault.IsDirectory, (await Fault(adapter, folder)).Fault);
    }

    [Theory]
    [InlineData("terminal", false)]
    [InlineData("serial", false)]
    [InlineData("terminal", true)]
    [InlineData("serial", true)]
    public async Task What_is_no_terminal_is_told_as_such(string adapter, bool device)
    {
        var path = device ? "/dev/null" : Path.Combine(folder, "file");
        if (!device)
        {
            await File.WriteAllTextAsync(path, "kept");
        }

        Assert.Equal(PortOpenFault.NotATerminal, (await Fault(adapter, path)).Fault);
        if (!device)
        {
            Assert.Equal("kept", await File.ReadAllTextAsync(path));
        }
    }

    [Fact]
    public void A_port_that_the_account_may_not_open_is_forbidden_and_the_way_out_is_named()
    {
        using var pair = new PseudoTerminalForOthers(mode: UnixFileMode.None);
        var fault = AsNobody.Run(() => Assert.Throws<PortOpenException>(() => Open(pair.Path)));
        Assert.Equal(PortOpenFault.Forbidden, fault.Fault);
        Assert.Contains($"may not open {pair.Path}", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_program_that_knows_only_the_kernels_lock_keeps_us_out_too()
    {
        const UnixFileMode everyone =
            UnixFileMode.UserRead
            | UnixFileMode.UserWrite
            | UnixFileMode.GroupRead
            | UnixFileMode.GroupWrite
            | UnixFileMode.OtherRead
            | UnixFileMode.OtherWrite;
        using var pair = new PseudoTerminalForOthers(everyone);
        using var other = pair.OpenExclusive();
        var fault = AsNobody.Run(() => Assert.Throws<PortOpenException>(() => Open(pair.Path)));
        Assert.Equal(PortOpenFault.Busy, fault.Fault);
    }

    [Theory]
    [InlineData("terminal", "serial")]
    [InlineData("serial", "terminal")]
    [InlineData("serial", "serial")]
    public async Task The_two_adapters_keep_each_other_out_and_name_the_holder(string first, string second)
    {
        await using var instrument = new PseudoTerminal(Path.Combine(folder, "tty"));
        await using var held = await Opener(first, instrument.LinkPath!).OpenAsync();
        var fault = await Fault(second, instrument.LinkPath!);
        Assert.Equal(PortOpenFault.Busy, fault.Fault);
        Assert.Contains($"(process {Environment.ProcessId})", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("terminal")]
    [InlineData("serial")]
    public async Task A_speed_that_no_line_has_is_told_and_leaves_the_port_free(string adapter)
    {
        await using var instrument = new PseudoTerminal(Path.Combine(folder, "tty"));
        var openers = new PortOpeners(new PortSettings { Baud = adapter == "serial" ? -1 : 123 });
        var address = PortAddress.Parse($"{adapter}:{instrument.LinkPath}");
        var fault = await Assert.ThrowsAsync<PortOpenException>(async () => await openers.For(address).OpenAsync());
        Assert.Contains("does not run at", fault.Message, StringComparison.Ordinal);

        await using var port = await Opener(adapter, instrument.LinkPath!).OpenAsync();
    }

    [Theory]
    [InlineData(2, PortOpenFault.Missing)]
    [InlineData(6, PortOpenFault.NoDevice)]
    [InlineData(19, PortOpenFault.NoDevice)]
    [InlineData(5, PortOpenFault.NoDevice)]
    [InlineData(13, PortOpenFault.Forbidden)]
    [InlineData(1, PortOpenFault.Forbidden)]
    [InlineData(16, PortOpenFault.Busy)]
    [InlineData(11, PortOpenFault.Busy)]
    [InlineData(25, PortOpenFault.NotATerminal)]
    [InlineData(21, PortOpenFault.IsDirectory)]
    [InlineData(24, PortOpenFault.Other)]
    public void Each_error_number_of_the_system_has_its_fault(int errno, PortOpenFault expected)
    {
        // Numbers: Linux, include/uapi/asm-generic/errno-base.h.
        Assert.Equal(expected, OpenFaults.Of(errno));
    }

    private static FileHandle Open(string path) =>
        TerminalOpening.OpenRaw(path, path, PortSettings.DefaultBaud, new OpenFaults(new SystemFolders()));

    private static IPortOpener Opener(string adapter, string path) =>
        new PortOpeners(new PortSettings()).For(PortAddress.Parse($"{adapter}:{path}"));

    private static async Task<PortOpenException> Fault(string adapter, string path) =>
        await Assert.ThrowsAsync<PortOpenException>(async () => await Opener(adapter, path).OpenAsync());
}
