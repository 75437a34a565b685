using PupilBridge.Ports;

namespace PupilBridge.Worker.Options;

/// <summary>The list of ports: <c>auto</c> alone, or addresses with commas between them.</summary>
internal static class PortsSetting
{
    public static Setting Instance { get; } =
        new(
            nameof(BridgeOptions.Ports),
            "ports to listen on",
            BridgeSettings.Automatic,
            $"'{BridgeSettings.Automatic}', or different addresses with commas between them (a device such as /dev/serial/by-id/NAME or COM3, tcp:HOST:PORT, memory:NAME)",
            Read,
            IsValid,
            options => string.Join(',', options.Ports)
        );

    private static bool Read(BridgeOptions options, string text)
    {
        options.Ports.Clear();
        foreach (var port in text.Split(',', StringSplitOptions.TrimEntries))
            options.Ports.Add(port);
        return true;
    }

    private static bool IsValid(BridgeOptions options)
    {
        if (options.Ports.Count == 0 || options.Ports is [BridgeSettings.Automatic])
            return true;
        return options.Ports.All(IsAddress)
            && options.Ports.Distinct(StringComparer.Ordinal).Count() == options.Ports.Count;
    }

    private static bool IsAddress(string text) => PortAddress.TryParse(text, out _, out _);
}
