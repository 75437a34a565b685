using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>The service started; entries that follow were made by this version until another one starts.</summary>
public sealed record ServiceStarted : SystemEntry
{
    /// <summary>The program's version.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The number by which instruments know this installation.</summary>
    public required HostId Host { get; init; }
}

/// <summary>From here on this profile is in force for every exam that opens.</summary>
public sealed record ProfileInForce : SystemEntry
{
    /// <summary>The whole profile.</summary>
    public required Profile Profile { get; init; }
}

/// <summary>
/// Nothing came from an instrument for as long as the profile allows within an exam. Written so that an exam that was
/// left open closes at a moment that the journal knows.
/// </summary>
public sealed record SilenceReached : SystemEntry
{
    /// <summary>The instrument that is silent.</summary>
    public required SerialNumber Serial { get; init; }
}
