using System.Globalization;

namespace PupilBridge.Instrument;

/// <summary>
/// The number of a host installation, drawn once at random and kept: a restarted service is the same host. On the wire it
/// has eight upper-case hexadecimal digits; zero, the default, names no host.
/// </summary>
/// <param name="Value">1 to 2^32 − 1.</param>
public readonly record struct HostId(uint Value)
{
    /// <summary>Whether it names a host at all.</summary>
    public bool IsKnown => Value != 0;

    /// <summary>Eight upper-case hexadecimal digits, as on the wire.</summary>
    public override string ToString() => Value.ToString("X8", CultureInfo.InvariantCulture);
}
