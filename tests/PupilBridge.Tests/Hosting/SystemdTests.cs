using System.Net.Sockets;
using System.Runtime.Versioning;
using System.Text;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary>
/// The protocol of Type=notify (sd_notify, systemd's public interface): ready is said when the service runs, stopping when
/// it was asked to stop. The framework takes a parent process named "systemd" for the service manager; here a shell plays it.
/// </summary>
[SupportedOSPlatform("linux")]
public sealed class SystemdTests : IDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task It_says_ready_and_stopping_and_takes_the_managers_folder()
    {
        using var manager = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
        manager.Bind(new UnixDomainSocketEndPoint(folder.At("notify")));
        File.Copy("/bin/sh", folder.At("systemd"));
        var state = Directory.CreateDirectory(folder.At("state")).FullName;
        using var service = Executable.Start(
            new Dictionary<string, string?> { ["NOTIFY_SOCKET"] = folder.At("notify"), ["STATE_DIRECTORY"] = state },
            ["-c", $"'{Executable.Path}' serve --port '{folder.At("no-port")}'; exit $?"],
            program: folder.At("systemd")
        );
        Assert.Equal("READY=1", await Heard(manager));
        await service.Says($"Data folder: {state}");
        var holder = await File.ReadAllTextAsync(Path.Combine(state, "lock-holder.txt"));
        Executable.Signal("TERM", holder.Trim());
        Assert.Equal("STOPPING=1", await Heard(manager));
        Assert.Equal(PupilBridge.CommandLine.ExitCode.Done, (await service.Ended()).Code);
    }

    private static async Task<string> Heard(Socket manager)
    {
        var buffer = new byte[256];
        var count = await manager.ReceiveAsync(buffer).WaitAsync(Deadline);
        return Encoding.UTF8.GetString(buffer, 0, count).Trim();
    }
}
