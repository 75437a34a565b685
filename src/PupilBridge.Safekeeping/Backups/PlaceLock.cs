namespace PupilBridge.Safekeeping.Backups;

/// <summary>One backup at a time to a destination; held by the operating system, so that a killed one locks nobody out.</summary>
internal static class PlaceLock
{
    /// <summary>Takes it until it is disposed of.</summary>
    /// <exception cref="BackupException">Another backup is being made there.</exception>
    public static IDisposable Take(BackupPlace place)
    {
        try
        {
            return new FileStream(
                Path.Combine(place.Folder, "in-use.lock"),
                FileMode.OpenOrCreate,
                FileAccess.ReadWrite,
                FileShare.None
            );
        }
        catch (IOException fault) when (File.Exists(Path.Combine(place.Folder, "in-use.lock")))
        {
            throw new BackupException(
                BackupTrouble.InUse,
                $"Another backup to {place.Folder} is being made.",
                "Wait until it is done.",
                fault
            );
        }
    }
}
