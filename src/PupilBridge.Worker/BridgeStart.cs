using System.Text.Json;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker;

/// <summary>What is done before a bridge opens.</summary>
internal static partial class BridgeStart
{
    /// <summary>Checks the options, profile included.</summary>
    /// <returns>The profile to work by.</returns>
    /// <exception cref="OptionsValidationException">Options are wrong; all faults are named.</exception>
    public static Profile Check(BridgeOptions options)
    {
        var faults = BridgeOptionsValidator.Check(options).ToList();
        var profile = Profile.Default;
        if (File.Exists(options.ProfileFile))
        {
            try
            {
                profile = ExamJson.ReadOther<Profile>(File.ReadAllBytes(options.ProfileFile));
                faults.AddRange(
                    ProfileCheck.Faults(profile).Select(fault => $"The profile {options.ProfileFile}: {fault}")
                );
            }
            catch (Exception e)
                when (e is JsonException or IOException or UnauthorizedAccessException or ArgumentException)
            {
                faults.Add(
                    $"{BridgeOptions.Section}:{nameof(BridgeOptions.ProfileFile)} is '{options.ProfileFile}', which cannot be read as "
                        + $"a profile: {e.Message}"
                );
            }
        }

        return faults.Count == 0
            ? profile
            : throw new OptionsValidationException(BridgeOptions.Section, typeof(BridgeOptions), faults);
    }

    /// <summary>Makes the data folder, which nobody but its owner may look into, and finds the host's number.</summary>
    public static HostId PrepareFolder(BridgeOptions options)
    {
        try
        {
            if (OperatingSystem.IsWindows())
                Directory.CreateDirectory(options.DataFolder);
            else
                Directory.CreateDirectory(
                    options.DataFolder,
                    UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
                );
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new BridgeStartException(
                $"The data folder {options.DataFolder} cannot be made: {e.Message} Choose another one by "
                    + $"{BridgeOptions.Section}:{nameof(BridgeOptions.DataFolder)}, or give the service's account the right to make it.",
                e
            );
        }

        return HostNumber.ReadOrDraw(Path.Combine(options.DataFolder, options.HostIdFile));
    }

    public static Func<PortAddress, IPortOpener> OpenersOf(BridgeParts parts) =>
        parts.Openers ?? new PortOpeners(new PortSettings { Baud = parts.Options.Baud }).For;

    public static Func<IReadOnlyList<string>> FinderOf(BridgeParts parts)
    {
        return parts.FindPorts ?? new PortDirectory().ListNames;
    }

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "A part of the service did not stop within {Seconds:0.0} s and is left behind."
    )]
    public static partial void StopsLate(ILogger logger, double seconds);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "The journal is not as it was written, and the service goes on: {Problem}"
    )]
    public static partial void JournalProblem(ILogger logger, string problem);
}
