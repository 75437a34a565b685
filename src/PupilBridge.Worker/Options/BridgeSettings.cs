using PupilBridge.Worker.Erasing;

namespace PupilBridge.Worker.Options;

/// <summary>All values that a person can set, in the order in which they are documented.</summary>
public static class BridgeSettings
{
    /// <summary>The word that means: all serial ports that are found, also those plugged in later.</summary>
    public const string Automatic = "auto";

    /// <summary>The settings.</summary>
    public static IReadOnlyList<Setting> All { get; } =
    [
        Setting.Text(
            nameof(BridgeOptions.DataFolder),
            "folder of the journal, the exam log and the host number",
            ("(none)", "a path to a folder"),
            o => o.DataFolder,
            (o, v) => o.DataFolder = v,
            IsPath
        ),
        Setting.Text(
            nameof(BridgeOptions.Sealing),
            "whether what identifies patients is sealed in the journal, so that it can be erased",
            (SealingWords.Of(new BridgeOptions().Sealing), "when-keyed (where a master key is there), always or never"),
            o => SealingWords.Of(o.Sealing),
            (o, v) => o.Sealing = SealingWords.Read(v) ?? o.Sealing,
            v => SealingWords.Read(v) is not null
        ),
        PortsSetting.Instance,
        Setting.Whole(
            nameof(BridgeOptions.Baud),
            "speed of serial lines in baud",
            (300, 4_000_000),
            o => o.Baud,
            (o, v) => o.Baud = v
        ),
        Setting.Text(
            nameof(BridgeOptions.HostIdFile),
            "file of this installation's host number, relative to the data folder",
            (new BridgeOptions().HostIdFile, "a path to a file"),
            o => o.HostIdFile,
            (o, v) => o.HostIdFile = v,
            IsPath
        ),
        Setting.Text(
            nameof(BridgeOptions.ProfileFile),
            "file of the clinic's profile; empty for the built-in one",
            ("(empty)", "empty, or a path to a file that exists"),
            o => o.ProfileFile,
            (o, v) => o.ProfileFile = v,
            path => path.Length == 0 || File.Exists(path)
        ),
        Setting.Whole(
            nameof(BridgeOptions.MaxPorts),
            "most ports served at the same time",
            (1, 256),
            o => o.MaxPorts,
            (o, v) => o.MaxPorts = v
        ),
        Setting.Whole(
            nameof(BridgeOptions.WaitingPerSource),
            "most entries of one source that wait for the disk before its line is held back",
            (1, 4096),
            o => o.WaitingPerSource,
            (o, v) => o.WaitingPerSource = v
        ),
        Setting.Seconds(
            nameof(BridgeOptions.WriteLimit),
            "longest time that a write to a port may take",
            (0.1, 30),
            o => o.WriteLimit,
            (o, v) => o.WriteLimit = v
        ),
        Setting.Seconds(
            nameof(BridgeOptions.ReconnectFirst),
            "wait before the first new try to open a port; it doubles with each failure",
            (0.05, 60),
            o => o.ReconnectFirst,
            (o, v) => o.ReconnectFirst = v
        ),
        Setting.Seconds(
            nameof(BridgeOptions.ReconnectCap),
            "longest wait between two tries",
            (0.05, 3600),
            o => o.ReconnectCap,
            (o, v) => o.ReconnectCap = v
        ),
        Setting.Seconds(
            nameof(BridgeOptions.LookForPortsEvery),
            "how often new ports are looked for",
            (0.25, 3600),
            o => o.LookForPortsEvery,
            (o, v) => o.LookForPortsEvery = v
        ),
        Setting.Whole(
            nameof(BridgeOptions.ScreenBacklog),
            "changes a screen may fall behind before it is dropped and starts over",
            (16, 65_536),
            o => o.ScreenBacklog,
            (o, v) => o.ScreenBacklog = v
        ),
        Setting.Seconds(
            nameof(BridgeOptions.DiskRetry),
            "longest wait before a failed disk is tried again",
            (0.05, 600),
            o => o.DiskRetry,
            (o, v) => o.DiskRetry = v
        ),
    ];

    private static bool IsPath(string text) =>
        !string.IsNullOrWhiteSpace(text) && text.IndexOfAny(Path.GetInvalidPathChars()) < 0;
}
