using System.Globalization;
using PupilBridge.Clinic.Outbox;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Outbox;

/// <summary>How a command names a signed version: the exam's number, a hyphen, the version.</summary>
internal static class OutboxNames
{
    /// <summary>The name of a line of the outbox.</summary>
    public static string Of(OutboxLine line) =>
        string.Create(CultureInfo.InvariantCulture, $"{line.Exam}-{line.Version}");

    /// <summary>The version that a name means.</summary>
    /// <exception cref="CommandFailure">It is no such name.</exception>
    public static (long Exam, int Version) Read(string name)
    {
        var parts = name.Split('-');
        return
            parts.Length == 2
            && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var exam)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var version)
            ? (exam, version)
            : throw new CommandFailure(
                ExitCode.Usage,
                $"'{name}' names no signed version.",
                "Write the exam's number, a hyphen and the version, as 'pupilbridge outbox list' prints them: 17-1."
            );
    }
}
