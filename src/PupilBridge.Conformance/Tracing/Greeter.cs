using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Tracing;

/// <summary>
/// Says the least that makes an idle instrument tell who it is and go on telling what happens: it greets until there is a whole
/// identity or a refusal, then repeats that it has nothing on disk. So the instrument forgets nothing. It never takes over from
/// another host.
/// </summary>
public sealed class Greeter
{
    /// <summary>The number by which the bench's own host greets: ours, the same at every bench.</summary>
    public static readonly HostId BenchHost = new(0x7ACE_0001);

    private static readonly TimeSpan GreetingEvery = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan GreetingWhileRefused = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan KeepAliveEvery = TimeSpan.FromSeconds(3);

    private TimeSpan next;
    private BootNumber? boot;
    private BootNumber? coming;
    private int scales;

    /// <summary>When something is due to be said, since the port was opened.</summary>
    public TimeSpan Next => next;

    /// <summary>Says what is due.</summary>
    /// <param name="now">The time since the port was opened.</param>
    /// <returns>The bytes of one line, its LF included; none if nothing is due.</returns>
    public ReadOnlyMemory<byte> Say(TimeSpan now)
    {
        if (now < next)
        {
            return default;
        }

        next = now + (boot is null ? GreetingEvery : KeepAliveEvery);
        var line = boot is { } known
            ? HostLine.Ack(BenchHost, known, 0)
            : HostLine.Who(BenchHost, WireLimits.LowestVersion, WireLimits.HighestVersion);
        var bytes = new byte[WireLimits.MaxLineBytes];
        return bytes.AsMemory(0, HostLineEncoder.Encode(line, bytes));
    }

    /// <summary>Hears one line of the instrument.</summary>
    /// <param name="content">The line without its LF.</param>
    /// <param name="now">The time since the port was opened.</param>
    public void Hear(ReadOnlySpan<byte> content, TimeSpan now)
    {
        if (!InstrumentLineDecoder.TryDecode(content, out var line, out _))
        {
            return;
        }

        switch (line.Kind)
        {
            case InstrumentLineKind.Identity:
                (coming, scales, boot) = (line.Identity.Boot, 0, null);
                break;
            case InstrumentLineKind.Scale when coming is not null && ++scales == 2:
                boot = coming;
                next = now;
                break;
            case InstrumentLineKind.Beat when boot is not null && line.Beat.Boot != boot:
                // It started anew: greet again.
                (boot, coming, next) = (null, null, now);
                break;
            case InstrumentLineKind.Held or InstrumentLineKind.NoVersion:
                (boot, next) = (null, now + GreetingWhileRefused);
                break;
            default:
                break;
        }
    }
}
