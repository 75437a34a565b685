using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Safekeeping.Backups;

namespace PupilBridge.Verbs.Backups;

/// <summary>What the commands about backups have in common.</summary>
internal static class BackupArguments
{
    /// <summary>The folder of the backups.</summary>
    public static Argument<string> Place(string name) =>
        new(name) { Description = "The folder of the backups, on another disk." };

    /// <summary>Which backup.</summary>
    public static Option<int?> Number() =>
        new("--backup") { Description = "The number of the backup; without it, the latest.", HelpName = "N" };

    /// <summary>The folder that was named.</summary>
    /// <exception cref="CommandFailure">The name cannot be one.</exception>
    public static BackupPlace In(string named)
    {
        try
        {
            return new BackupPlace(Path.TrimEndingDirectorySeparator(Path.GetFullPath(named)));
        }
        catch (Exception fault) when (fault is ArgumentException or NotSupportedException or PathTooLongException)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                $"'{named}' cannot be the name of a folder: {fault.Message}",
                "Name another."
            );
        }
    }

    /// <summary>A size for a person.</summary>
    public static string Size(long bytes) =>
        bytes switch
        {
            < 10_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes"),
            < 10_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0} kB"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0} MB"),
        };

    /// <summary>A moment for a person.</summary>
    public static string Moment(DateTimeOffset at) =>
        at.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);

    /// <summary>The exit code of a trouble with a backup.</summary>
    public static ExitCode CodeOf(BackupTrouble trouble) =>
        trouble switch
        {
            BackupTrouble.Missing => ExitCode.NotFound,
            BackupTrouble.Damaged => ExitCode.Damaged,
            BackupTrouble.InUse => ExitCode.InUse,
            BackupTrouble.Storage => ExitCode.Storage,
            _ => ExitCode.Refused,
        };
}
