using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace PupilBridge.Ports;

/// <summary>
/// Where a port is and what carries it, as people write it: <c>/dev/serial/by-id/…</c>, <c>COM3</c>,
/// <c>tcp:host:port</c>, <c>memory:name</c>; with <c>terminal:</c> or <c>serial:</c> before a path to choose the adapter.
/// </summary>
public sealed record PortAddress
{
    private PortAddress(PortAdapter adapter, string target, string text)
    {
        Adapter = adapter;
        Target = target;
        Text = text;
    }

    /// <summary>What carries the port.</summary>
    public PortAdapter Adapter { get; }

    /// <summary>The path, the COM name, <c>host:port</c>, or the memory line's name.</summary>
    public string Target { get; }

    /// <summary>The address as it was written.</summary>
    public string Text { get; }

    /// <summary>The address of a TCP port.</summary>
    /// <param name="host">A host name or an IP address (IPv6 without brackets).</param>
    /// <param name="port">1 to 65535.</param>
    /// <exception cref="FormatException">One of them cannot be.</exception>
    public static PortAddress Tcp(string host, int port) =>
        Parse(string.Create(CultureInfo.InvariantCulture, $"tcp:{Bracketed(host)}:{port}"));

    /// <summary>The address of a memory line.</summary>
    /// <param name="name">The line's name, not empty.</param>
    /// <exception cref="FormatException">The name is empty.</exception>
    public static PortAddress Memory(string name) => Parse("memory:" + name);

    /// <summary>Reads an address.</summary>
    /// <param name="text">The text.</param>
    /// <exception cref="FormatException">It is none; the message says what is wrong and how one looks.</exception>
    public static PortAddress Parse(string text) =>
        TryParse(text, out var address, out var error) ? address : throw new FormatException(error);

    /// <summary>Reads an address.</summary>
    /// <param name="text">The text.</param>
    /// <param name="address">The address, if it is one.</param>
    /// <param name="error">What is wrong with it, for a person, if it is none.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryParse(
        string? text,
        [NotNullWhen(true)] out PortAddress? address,
        [NotNullWhen(false)] out string? error
    )
    {
        text = (text ?? "").Trim();
        var (adapter, target) = Split(text);
        error = Fault(adapter, target);
        if (error is not null)
        {
            error =
                $"'{text}' is not a port: {error}. Write a device such as /dev/serial/by-id/NAME or COM3, tcp:HOST:PORT, or memory:NAME; "
                + "terminal: or serial: before a device chooses the adapter.";
        }

        address = error is null ? new PortAddress(adapter, target, text) : null;
        return address is not null;
    }

    /// <summary>The host and port number of a TCP address.</summary>
    /// <exception cref="InvalidOperationException">This is no TCP address.</exception>
    public (string Host, int Port) TcpTarget =>
        Adapter == PortAdapter.Tcp && TrySplitTcp(Target, out var host, out var port)
            ? (host, port)
            : throw new InvalidOperationException($"{Text} is not a TCP address.");

    /// <inheritdoc/>
    public override string ToString() => Text;

    private static (PortAdapter Adapter, string Target) Split(string text)
    {
        foreach (var adapter in Enum.GetValues<PortAdapter>())
        {
            var prefix = adapter + ":";
            if (text.StartsWith(prefix, StringComparison.OrdinalIgnoreCase))
            {
                return (adapter, text[prefix.Length..]);
            }
        }

        return (OperatingSystem.IsLinux() ? PortAdapter.Terminal : PortAdapter.Serial, text);
    }

    private static string? Fault(PortAdapter adapter, string target) =>
        adapter switch
        {
            _ when target.Length == 0 => "no name is given",
            _ when target.Any(char.IsControl) => "it holds a control character",
            PortAdapter.Tcp when !TrySplitTcp(target, out _, out _) =>
                "a TCP port needs a host and a number from 1 to 65535",
            PortAdapter.Serial or PortAdapter.Terminal when !IsDevice(target) =>
                "a device is a full path, or a COM number on Windows",
            _ => null,
        };

    private static bool IsDevice(string target) =>
        target[0] == '/'
        || (
            target.StartsWith("COM", StringComparison.OrdinalIgnoreCase)
            && int.TryParse(target.AsSpan(3), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && number > 0
        );

    private static bool TrySplitTcp(string target, out string host, out int port)
    {
        var colon = target.LastIndexOf(':');
        host = colon > 0 ? target[..colon] : "";
        var bracketed = host.Length > 2 && host[0] == '[' && host[^1] == ']';
        host = bracketed ? host[1..^1] : host;
        port = 0;
        return host.Length > 0
            && (bracketed || !host.Contains(':', StringComparison.Ordinal))
            && int.TryParse(target.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out port)
            && port is > 0 and <= 65_535;
    }

    private static string Bracketed(string host) => host.Contains(':', StringComparison.Ordinal) ? $"[{host}]" : host;
}
