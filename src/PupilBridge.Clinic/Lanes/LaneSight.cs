using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Lanes;

/// <summary>All that a lane's board is made of, at one moment: values only.</summary>
internal sealed record LaneSight
{
    /// <summary>The instrument.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>What it says just now; null if it was not met since the service started.</summary>
    public required LiveInstrument? Live { get; init; }

    /// <summary>The port that it was met on last, as it is now; null if none is known.</summary>
    public required PortStatus? Port { get; init; }

    /// <summary>What is in force and recorded, by the entries that are on disk.</summary>
    public required ExamBook Book { get; init; }

    /// <summary>The exam that takes the instrument's events, with what held when it began; null if there is none.</summary>
    public required Exam? Exam { get; init; }

    /// <summary>The exam that ended last on this instrument; null if there is none.</summary>
    public required Exam? Ended { get; init; }

    /// <summary>The patient of the exam at work; null if it has none.</summary>
    public required PatientView? Patient { get; init; }

    /// <summary>Why nothing can be recorded just now; null when all is well.</summary>
    public required string? Trouble { get; init; }

    /// <summary>What the journal knows of the instrument; null if it never mentioned it.</summary>
    public LaneState? Lane => Book.Lane(Serial);

    /// <summary>The profile that counts: the exam's own, else the one in force.</summary>
    public Profile Profile => Exam?.Profile ?? Book.Profile;

    /// <summary>What the instrument can do, as far as it is known.</summary>
    public InstrumentAbilities Abilities => Live?.Abilities ?? Lane?.Identity?.Abilities ?? InstrumentAbilities.None;

    /// <summary>
    /// Whether what the journal knows is of the same boot as what is live, so that it still holds where the live state does not tell: the
    /// instrument does not say again what it said before the service started.
    /// </summary>
    public bool IsSameBoot => Lane is { IsOff: false } lane && (Live is null || lane.Boot == Live.Boot);
}
