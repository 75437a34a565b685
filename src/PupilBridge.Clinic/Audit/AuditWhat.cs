namespace PupilBridge.Clinic.Audit;

/// <summary>What a note is about. Words of the stream's format: they are never changed.</summary>
public static class AuditWhat
{
    /// <summary>One exam.</summary>
    public const string Exam = "exam";

    /// <summary>One exam's record, in the console or as it leaves the house.</summary>
    public const string Record = "record";

    /// <summary>A single entry of the journal.</summary>
    public const string Raw = "raw";

    /// <summary>One patient.</summary>
    public const string Patient = "patient";

    /// <summary>One patient's visits.</summary>
    public const string History = "history";

    /// <summary>A list of patients.</summary>
    public const string Patients = "patients";

    /// <summary>A list of exams.</summary>
    public const string Exams = "exams";

    /// <summary>A day's list.</summary>
    public const string Day = "day";

    /// <summary>Records one after the other, for a table.</summary>
    public const string Table = "table";

    /// <summary>A lane, or all of them, with whoever is before the instrument.</summary>
    public const string Lane = "lane";

    /// <summary>What is on its way to other systems.</summary>
    public const string Outbox = "outbox";

    /// <summary>A list of patients whose last visit lies longer ago than the clinic keeps what identifies them.</summary>
    public const string Due = "due";

    /// <summary>The audit stream itself.</summary>
    public const string Audit = "audit";

    /// <summary>Something that the caller's roles or scopes do not allow; it was not shown.</summary>
    public const string NotAllowed = "not-allowed";

    /// <summary>Somebody signed in.</summary>
    public const string SignedIn = "signed-in";

    /// <summary>Somebody signed off, or was signed off.</summary>
    public const string SignedOff = "signed-off";

    /// <summary>A sign-in was refused.</summary>
    public const string Refused = "refused";

    /// <summary>A person's roles, password or right to sign in, or a program's key, was changed.</summary>
    public const string Person = "person";

    /// <summary>The erasure of a patient was ordered; the journal says whether it was done.</summary>
    public const string Erase = "erase";

    /// <summary>Proposals to erase patients.</summary>
    public const string Proposals = "proposals";

    /// <summary>The erasure of a patient was proposed; nothing was erased by it.</summary>
    public const string Propose = "erase-proposed";

    /// <summary>The proposal to erase a patient was withdrawn.</summary>
    public const string Withdraw = "erase-withdrawn";

    /// <summary>A backup was begun: everything was read, and written to a folder.</summary>
    public const string Backup = "backup";

    /// <summary>This data folder was made of a backup.</summary>
    public const string Restore = "restore";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Exam,
        Record,
        Raw,
        Patient,
        History,
        Patients,
        Exams,
        Day,
        Table,
        Lane,
        Outbox,
        Due,
        Audit,
        NotAllowed,
        SignedIn,
        SignedOff,
        Refused,
        Person,
        Erase,
        Proposals,
        Propose,
        Withdraw,
        Backup,
        Restore,
    ];
}
