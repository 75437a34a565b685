using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>
/// A second descriptor of an open terminal. It carries the lock, and it can be asked whether the line has hung up, which
/// System.IO.Ports does not say if no read was pending at that moment.
/// </summary>
internal sealed class HangUpWatch : IDisposable
{
    private readonly Action release;
    private readonly Func<bool> isHungUp;

    [SupportedOSPlatform("linux")]
    internal HangUpWatch(FileHandle terminal)
    {
        release = terminal.Dispose;
        isHungUp = () => (Waiting.Now(terminal, 0) & LinuxNumbers.PollGone) != 0;
    }

    internal bool IsHungUp
    {
        get
        {
            try
            {
                return isHungUp();
            }
            catch (ObjectDisposedException)
            {
                return true;
            }
        }
    }

    public void Dispose() => release();
}
