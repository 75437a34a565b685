namespace PupilBridge.Clinic.Audit;

/// <summary>
/// One line of the audit stream: who saw what of whom, when, by which way and from where; or what concerns people and their rights. It holds
/// numbers of patients and never a name, a search that was typed, or anything that was shown.
/// </summary>
public sealed record AuditNote
{
    /// <summary>When, in UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Who: a sign-in name, <c>NAME (key)</c> of a program, <c>ACCOUNT (command)</c> of a command; empty for nobody.</summary>
    public required string Who { get; init; }

    /// <summary>What: one of <see cref="AuditWhat"/>.</summary>
    public required string What { get; init; }

    /// <summary>By which way: one of <see cref="AuditWay"/>.</summary>
    public required string Way { get; init; }

    /// <summary>
    /// The path of the page or route, without its query; null for a command. Where a patient's number stands in it, a note on its way into
    /// the stream has <see cref="PatientInPath.StandIn"/> there and the number in <see cref="Asked"/>.
    /// </summary>
    public string? Path { get; init; }

    /// <summary>The address that asked; null for this machine's own commands.</summary>
    public string? From { get; init; }

    /// <summary>The exam; null if it was about no single one.</summary>
    public long? Exam { get; init; }

    /// <summary>The version of the exam's record; null for none in particular.</summary>
    public int? Version { get; init; }

    /// <summary>The numbers of the patients who were shown; at most <see cref="MostPatients"/> of them.</summary>
    public IReadOnlyList<string> Patients { get; init; } = [];

    /// <summary>
    /// The number that was asked for, by the path or for erasing, whether or not a patient bears it; null for none. Where numbers are sealed
    /// it is only kept if a patient bears it, since it may be that of one who was erased.
    /// </summary>
    public string? Asked { get; init; }

    /// <summary>How many lines of a list were shown; null where it was no list.</summary>
    public int? Lines { get; init; }

    /// <summary>Whom or what else it concerns: a person whose rights were changed, an instrument, a policy that refused.</summary>
    public string? Subject { get; init; }

    /// <summary>How many notes before this one could not be recorded, since the disk did not take them.</summary>
    public int Missed { get; init; }

    /// <summary>The most patients' numbers in one note: the longest page of a list.</summary>
    public const int MostPatients = 500;
}
