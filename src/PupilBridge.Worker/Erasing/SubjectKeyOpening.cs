using PupilBridge.Journal;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Erasing;

/// <summary>Opens a data folder's keys of what is sealed, or makes them.</summary>
internal static class SubjectKeyOpening
{
    /// <summary>For reading: what is there.</summary>
    /// <returns>Null where nothing was ever sealed.</returns>
    /// <exception cref="BridgeStartException">They cannot be used.</exception>
    public static SubjectKeyStore? Existing(BridgeParts parts) =>
        SubjectKeyStore.Exists(parts.Disk, parts.Options.DataFolder)
            ? SubjectKeyStore.Open(parts.Disk, parts.Options.DataFolder, parts.Keys, parts.SubjectKeyChance)
            : null;

    /// <summary>For recording: what is there, or new ones where there are none and sealing is wished for.</summary>
    /// <param name="parts">What the bridge is made of.</param>
    /// <param name="journal">The journal's folder.</param>
    /// <param name="durable">The journal's last entry.</param>
    /// <exception cref="BridgeStartException">They cannot be used, or are missing.</exception>
    public static SubjectKeyStore? ForRecording(BridgeParts parts, JournalFolder journal, long durable)
    {
        if (Existing(parts) is { } there)
            return there;
        var isWished =
            parts.Options.Sealing == SealingChoice.Always
            || (parts.Options.Sealing == SealingChoice.WhenKeyed && parts is { Keys: not null, Encrypt: true });
        if (!isWished)
            return null;
        using (var reader = JournalReader.Live(parts.Disk, journal, 1, () => durable))
            SealedRecords.RequireNone(reader);
        return SubjectKeyStore.Create(
            parts.Disk,
            parts.Options.DataFolder,
            parts.Keys,
            durable + 1,
            parts.SubjectKeyChance
        );
    }
}
