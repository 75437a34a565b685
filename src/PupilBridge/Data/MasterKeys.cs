using PupilBridge.Configuration;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Data;

/// <summary>The master keys of a data folder, for the service that writes and for commands that read.</summary>
internal static class MasterKeys
{
    private static readonly Dictionary<string, string?> NothingSet = [];

    /// <summary>The keys with which a command reads; null where there is no key file.</summary>
    /// <exception cref="KeyException">There is a key file, and it cannot be used.</exception>
    public static KeyRing? ToRead(string dataFolder) => ToRead(Settings.Read(dataFolder, NothingSet).Protection);

    /// <summary>Whether what a command writes anew, such as the exam log, is to be encrypted.</summary>
    /// <param name="folder">The journal with the keys to read it.</param>
    public static bool IsWanted(JournalFolder folder) =>
        folder.Keys is not null && Settings.Read(folder.DataFolder, NothingSet).Protection.Encrypt;

    /// <summary>The keys with which the service reads and writes; where it is to encrypt and there is no key file yet, it is made.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="time">Dates a new key.</param>
    /// <exception cref="KeyException">The key file cannot be used, or is missing though something is encrypted.</exception>
    public static (KeyRing? Keys, bool Encrypt) ToServe(Settings settings, TimeProvider time)
    {
        var protection = settings.Protection;
        if (!protection.Encrypt)
        {
            return (ToRead(protection), false);
        }

        var data = settings.Bridge.DataFolder;
        if (!protection.KeyFile.Exists && JournalKeys.Count(RealDisk.Instance, new JournalFolder(data)).Encrypted > 0)
        {
            // A new key would not open what the lost one encrypted, and would hide what is wrong.
            return (protection.KeyFile.Read(), true);
        }

        if (!OperatingSystem.IsWindows() && !Directory.Exists(data))
        {
            // The key file comes first, and the folder is its owner's from the beginning.
            Directory.CreateDirectory(data, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        return (protection.KeyFile.ReadOrCreate(time), true);
    }

    private static KeyRing? ToRead(ProtectionSettings protection) =>
        protection.KeyFile.Exists ? protection.KeyFile.Read() : null;
}
