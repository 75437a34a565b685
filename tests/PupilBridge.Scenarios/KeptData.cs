using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Keys.Files;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Scenarios;

/// <summary>A data folder as the service keeps it by default, encrypted under the key file in it, for who opens it without the service.</summary>
public static class KeptData
{
    /// <summary>The keys of the key file, which is made if it is not there.</summary>
    public static KeyRing Keys(string dataFolder) =>
        MasterKeyFile.Own(Path.Combine(dataFolder, "keys", "master.json")).ReadOrCreate(TimeProvider.System);

    /// <summary>The parts of a bridge.</summary>
    public static BridgeParts Parts(BridgeOptions options) =>
        new()
        {
            Options = options,
            Keys = Keys(options.DataFolder),
            Encrypt = true,
        };

    /// <summary>How its journal is written.</summary>
    public static JournalOptions Journal(string dataFolder) =>
        new()
        {
            Folder = new JournalFolder(dataFolder) { Keys = Keys(dataFolder) },
            Encrypt = true,
        };

    /// <summary>How its exam log is kept.</summary>
    public static ExamLogOptions ExamLog(string dataFolder) => new() { Keys = Keys(dataFolder), Encrypt = true };
}
