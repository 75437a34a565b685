namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>Codes of the record as a whole, and of findings.</summary>
internal static class RecordCodes
{
    public static LocalCode[] All { get; } =
    [
        new("exam-panel", "Pupil exam", "All that was measured and judged of both pupils in one sitting."),
        new(
            "findings-panel",
            "Findings of the criteria",
            "What every criterion said of the exam; none is a diagnosis."
        ),
        new("pupil-exam-record", "Record of a pupil exam", "The document that a clinician signs, or its draft."),
        new("met", "Met", "Surely found, beyond the expanded uncertainty; no diagnosis."),
        new("not-met", "Not met", "Examined, and surely not found; it excludes nothing and is no reassurance."),
        new("cannot-tell", "Cannot tell", "Examined, and what was found does not decide it."),
        new("compared-value", "Value compared", "The value that the criterion compared."),
        new("limit", "Limit", "The limit that was in use."),
        new("reason", "Reason", "Why a criterion cannot tell, or was not examined, in a word."),
        new("block", "Block", "The kind of stimulus train."),
        new("instrument-firmware", "Firmware", "The version of the instrument's program."),
        new("program-version", "Program version", "The version of the program that made the record."),
        new("profile-in-force", "Profile in force", "Name and version of the clinic's profile of the exam."),
    ];
}
