using System.IO.Ports;
using System.Runtime.Versioning;

namespace PupilBridge.Ports;

/// <summary>Opens a serial line by System.IO.Ports.</summary>
internal sealed class SerialPortOpener(PortAddress address, PortSettings settings, OpenFaults faults) : IPortOpener
{
    public string Name => address.Text;

    public async ValueTask<IPort> OpenAsync() => await Task.Run(Open).ConfigureAwait(false);

    private SerialPortAdapter Open()
    {
        using var guard = new OpeningGuard();
        if (OperatingSystem.IsLinux())
        {
            guard.Watch = Lock();
        }

        try
        {
            guard.Serial = new SerialPort(address.Target, settings.Baud, Parity.None, 8, StopBits.One);
            guard.Serial.Open();
        }
        catch (Exception error)
            when (error is UnauthorizedAccessException or IOException or ArgumentException or InvalidOperationException)
        {
            throw Fault(error);
        }

        RaiseLines(guard.Serial);
        guard.Kept = true;
        return new SerialPortAdapter(Name, guard.Serial, guard.Watch);
    }

    // Keeps out what the kernel's exclusive mode does not (programs of root), and shows a hang-up that falls between reads.
    [SupportedOSPlatform("linux")]
    private HangUpWatch Lock() => new(TerminalOpening.OpenLocked(Name, address.Target, faults));

    // Many boards with native USB send only while DTR is up. On a pseudo-terminal the wish fails, and before Open it
    // would make Open fail.
    private static void RaiseLines(SerialPort serial)
    {
        try
        {
            serial.DtrEnable = true;
            serial.RtsEnable = true;
        }
        catch (IOException)
        {
            // No such lines here.
        }
    }

    private PortOpenException Fault(Exception error)
    {
        if (error is ArgumentOutOfRangeException)
        {
            return OpenFaults.BadSpeed(Name, settings.Baud);
        }

        return OperatingSystem.IsWindows()
            ? WindowsFault(error)
            : faults.From(Name, address.Target, error.InnerException?.HResult ?? 0, error.Message, error);
    }

    // From documentation, not tried: Windows says "access denied" for a port that is in use.
    private PortOpenException WindowsFault(Exception error)
    {
        var (fault, text) = error switch
        {
            UnauthorizedAccessException => (
                PortOpenFault.Busy,
                $"The port {Name} is in use by another program. Close that program, or choose another port."
            ),
            FileNotFoundException => (
                PortOpenFault.Missing,
                $"There is no port {Name}. Ports present: {string.Join(", ", SerialPort.GetPortNames())}."
            ),
            ArgumentException => (PortOpenFault.NotATerminal, $"{Name} is not a serial port."),
            _ => (PortOpenFault.Other, $"The port {Name} could not be opened: {error.Message}"),
        };
        return new PortOpenException(Name, fault, text, error);
    }

    /// <summary>Gives back what was taken so far when an opening fails half-way.</summary>
    private sealed class OpeningGuard : IDisposable
    {
        internal HangUpWatch? Watch { get; set; }

        internal SerialPort? Serial { get; set; }

        internal bool Kept { get; set; }

        public void Dispose()
        {
            if (!Kept)
            {
                Serial?.Dispose();
                Watch?.Dispose();
            }
        }
    }
}
