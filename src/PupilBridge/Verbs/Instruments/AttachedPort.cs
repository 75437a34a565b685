using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Conformance.Lines;
using PupilBridge.Ports;

namespace PupilBridge.Verbs.Instruments;

/// <summary>The port of an attached instrument, as the commands of the bench name and open it.</summary>
internal sealed class AttachedPort
{
    /// <summary>Where the instrument is.</summary>
    public Argument<string?> Port { get; } =
        new("PORT")
        {
            Description =
                "Where the instrument is: a device as 'pupilbridge ports' names it, COM3, or tcp:HOST:PORT. The service must not use it meanwhile.",
            Arity = ArgumentArity.ZeroOrOne,
        };

    /// <summary>The speed of a serial line.</summary>
    public Option<int> Baud { get; } =
        new("--baud")
        {
            Description = "The speed of a serial line in bits a second.",
            HelpName = "BAUD",
            DefaultValueFactory = _ => PortSettings.DefaultBaud,
        };

    /// <summary>Opens it.</summary>
    /// <param name="call">The invocation.</param>
    /// <returns>The line, its clock started.</returns>
    /// <exception cref="CommandFailure">No port is named, it is none, or it cannot be opened.</exception>
    public async Task<PortWire> OpenAsync(Call call)
    {
        var name = call.Get(Port);
        if (string.IsNullOrEmpty(name))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "No port is named.",
                "Name where the instrument is; 'pupilbridge ports' lists the serial ports."
            );
        }

        if (!PortAddress.TryParse(name, out var address, out var wrong))
        {
            throw new CommandFailure(ExitCode.Usage, wrong);
        }

        var baud = call.Get(Baud);
        if (baud is < 300 or > 4_000_000)
        {
            throw new CommandFailure(ExitCode.Usage, $"--baud is {baud}; allowed is 300 to 4000000.");
        }

        try
        {
            var opener = new PortOpeners(new PortSettings { Baud = baud }).For(address);
            return new PortWire(await opener.OpenAsync().ConfigureAwait(false), call.Time);
        }
        catch (PlatformNotSupportedException unsupported)
        {
            throw new CommandFailure(ExitCode.Port, unsupported.Message);
        }
        catch (PortOpenException fault)
        {
            var next =
                fault.Fault == PortOpenFault.Busy
                    ? "If the service listens there, take the port out of its settings or stop it, and run this again."
                    : "";
            throw new CommandFailure(ExitCode.Port, fault.Message, next);
        }
    }
}
