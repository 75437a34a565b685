using PupilBridge.CommandLine;
using PupilBridge.Journal;

namespace PupilBridge.Data;

/// <summary>Finds the journal of a data folder for commands that only read.</summary>
internal static class JournalPlace
{
    /// <summary>The journal of a data folder that has one.</summary>
    /// <param name="dataFolder">Full path of the data folder.</param>
    /// <returns>Where the journal lies, and the master keys to read it.</returns>
    /// <exception cref="Keys.KeyException">There is a key file, and it cannot be used.</exception>
    /// <exception cref="CommandFailure">There is none.</exception>
    public static JournalFolder Existing(string dataFolder)
    {
        var folder = new JournalFolder(dataFolder);
        return Directory.Exists(folder.Segments)
            ? folder with
            {
                Keys = MasterKeys.ToRead(dataFolder),
            }
            : throw new CommandFailure(
                ExitCode.NotFound,
                $"There is no journal in {dataFolder}.",
                "Name the data folder with --data DIR, or start the service once with 'pupilbridge serve'."
            );
    }
}
