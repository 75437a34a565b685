using PupilBridge.Keys.Files;

namespace PupilBridge.Keys;

/// <summary>
/// Changes the master key: the new one is written to the key file beside the old one, then every data key is wrapped under it, and
/// only then is the old one dropped. Cut off anywhere, everything can be opened with the key file as it is, and it can be begun again.
/// Whoever calls this holds the data folder's lock.
/// </summary>
public static class KeyRotation
{
    /// <summary>Makes a new master key, wraps all keys under it, and drops the old ones.</summary>
    /// <exception cref="KeyException">The key file cannot be used, or is handed over by the service manager.</exception>
    public static RotationOutcome Run(MasterKeyFile file, IReadOnlyList<IKeyHolder> holders, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(file);
        var ring = file.Read().With(MasterKey.Create(time));
        file.Replace(ring);
        return Finish(file, ring, holders);
    }

    /// <summary>
    /// Wraps all keys under the current master key, and drops those that nothing needs any more: after a rotation that was cut off, or
    /// after the service manager hands over a file with a newer key.
    /// </summary>
    public static RotationOutcome Finish(MasterKeyFile file, IReadOnlyList<IKeyHolder> holders)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Finish(file, file.Read(), holders);
    }

    private static RotationOutcome Finish(MasterKeyFile file, KeyRing ring, IReadOnlyList<IKeyHolder> holders)
    {
        var wrapped = holders.Sum(holder => holder.WrapAnew(ring));
        var needed = holders.SelectMany(holder => holder.Uses().Keys).ToHashSet();
        var kept = ring.Keeping(needed);
        var dropped = ring.Keys.Select(key => key.Id).Except(kept.Keys.Select(key => key.Id)).ToList();
        if (dropped.Count > 0 && !file.IsHandedOver)
        {
            file.Replace(kept);
        }

        return new RotationOutcome(ring.Current, wrapped, dropped);
    }
}

/// <summary>What a rotation did.</summary>
/// <param name="Current">The master key in use now.</param>
/// <param name="Wrapped">How many keys were wrapped anew.</param>
/// <param name="NotNeeded">
/// The master keys that nothing is wrapped under any more: dropped from a key file of our own; in one that is handed over they can be dropped.
/// </param>
public sealed record RotationOutcome(MasterKeyId Current, int Wrapped, IReadOnlyList<MasterKeyId> NotNeeded);
