using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class PermissionAdviceTests : IDisposable
{
    private const int GroupMayOpen = 0x21B0; // crw-rw----
    private readonly string groups = Path.GetTempFileName();

    public PermissionAdviceTests() => File.WriteAllText(groups, "root:x:0:\ndialout:x:20:bw\nlines:x:987:\n");

    public void Dispose() => File.Delete(groups);

    [Theory]
    [InlineData(20u, "dialout")]
    [InlineData(987u, "lines")]
    public void The_group_that_owns_the_device_is_named_with_the_exact_command(uint number, string name)
    {
        var text = Advice("kd", new FileStatus(GroupMayOpen, 0, number, 188));
        Assert.Contains($"belongs to the group '{name}'", text, StringComparison.Ordinal);
        Assert.Contains($"'sudo usermod -aG {name} kd'", text, StringComparison.Ordinal);
        Assert.Contains("sign out and in again", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Who_is_in_the_group_already_is_told_to_sign_in_again_only()
    {
        var text = Advice("bw", new FileStatus(GroupMayOpen, 0, 20, 188));
        Assert.Contains("this session began before that", text, StringComparison.Ordinal);
        Assert.DoesNotContain("usermod", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0x2180, 20u)] // crw-------
    [InlineData(0x2190, 5u)] // crw--w----
    [InlineData(GroupMayOpen, 0u)] // root's group: nobody should join that
    public void Where_no_group_helps_the_rules_for_devices_are_named(int mode, uint group)
    {
        var text = Advice("kd", new FileStatus(mode, 0, group, 188));
        Assert.Contains("70-pupilbridge.rules", text, StringComparison.Ordinal);
        Assert.DoesNotContain("usermod", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_group_without_a_name_is_told_by_its_number()
    {
        Assert.Contains(
            "group '4242'",
            Advice("kd", new FileStatus(GroupMayOpen, 0, 4242, 188)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Owner_group_and_permissions_are_read_from_the_file()
    {
        File.SetUnixFileMode(groups, UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.GroupWrite);
        var status = FileStatus.Of(groups);
        Assert.NotNull(status);
        Assert.Equal(0x1B0 & 0x130, status.Value.Mode & 0x1FF);
        Assert.True(status.Value.GroupMayOpen);
        Assert.False(status.Value.IsPseudoTerminal);
        Assert.Null(FileStatus.Of(groups + ".absent"));
    }

    private string Advice(string account, FileStatus status) =>
        new PermissionAdvice(new SystemFolders { Groups = groups, Account = account }).For("/dev/ttyUSB0", status);
}
