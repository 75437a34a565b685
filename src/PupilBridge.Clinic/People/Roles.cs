namespace PupilBridge.Clinic.People;

/// <summary>
/// What each role may do, as one table. The guarded desk, the pages and the web API all ask here.
/// </summary>
public static class Roles
{
    /// <summary>Seeing lanes and entering what belongs to an exam.</summary>
    public const string Lane = "lane";

    /// <summary>Seeing and adding patients, and the day's list.</summary>
    public const string Patients = "patients";

    /// <summary>Seeing exams, records, earlier visits and raw readings.</summary>
    public const string Records = "records";

    /// <summary>The review list, signing, amending and setting aside, and saying that two patients are one person.</summary>
    public const string Sign = "sign";

    /// <summary>Seeing instruments and their lines, and switching them off.</summary>
    public const string Instruments = "instruments";

    /// <summary>The service bench: disc sets, runs, certificates, lamps.</summary>
    public const string Bench = "bench";

    /// <summary>Seeing how instruments are calibrated: certificates and drift.</summary>
    public const string Calibrations = "calibrations";

    /// <summary>Looking after people and settings.</summary>
    public const string People = "people";

    /// <summary>Seeing what is on its way to other systems, and deciding about what was refused.</summary>
    public const string Sending = "sending";

    /// <summary>Seeing who is due to be erased, and erasing what identifies a patient.</summary>
    public const string Erasing = "erasing";

    private static readonly Dictionary<string, ClinicRole> Table = new(StringComparer.Ordinal)
    {
        [Lane] = ClinicRole.Examiner | ClinicRole.Clinician,
        [Patients] = ClinicRole.Examiner | ClinicRole.Clinician,
        [Records] = ClinicRole.Examiner | ClinicRole.Clinician,
        [Sign] = ClinicRole.Clinician,
        [Instruments] = ClinicRole.Examiner | ClinicRole.Clinician | ClinicRole.Technician,
        [Bench] = ClinicRole.Technician,
        [Calibrations] = ClinicRole.Technician | ClinicRole.Clinician | ClinicRole.Examiner,
        [People] = ClinicRole.Administrator,
        [Sending] = ClinicRole.Administrator,
        [Erasing] = ClinicRole.Administrator,
    };

    /// <summary>Every policy with the roles of which any one is enough.</summary>
    public static IReadOnlyDictionary<string, ClinicRole> All => Table;

    /// <summary>Every single role.</summary>
    public static IReadOnlyList<ClinicRole> Each { get; } =
    [ClinicRole.Examiner, ClinicRole.Clinician, ClinicRole.Technician, ClinicRole.Administrator];

    /// <summary>Whether somebody may do something.</summary>
    /// <param name="caller">Who.</param>
    /// <param name="policy">One of the names above.</param>
    public static bool May(this Caller caller, string policy)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return caller.Scopes is { } scopes ? scopes.Contains(policy) : caller.Has(Table[policy]);
    }
}
