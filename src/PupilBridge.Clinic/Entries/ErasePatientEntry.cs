namespace PupilBridge.Clinic.Entries;

/// <summary>Erases for good what identifies a patient. It cannot be taken back.</summary>
public sealed record ErasePatientEntry : DeskEntry
{
    /// <summary>The patient's number; those merged into it are erased with it.</summary>
    public required string Patient { get; init; }

    /// <summary>Who ordered it, 1 to 64 characters. It stays readable.</summary>
    public required string OrderedBy { get; init; }

    /// <summary>Why. It stays readable, and must not say who the patient is.</summary>
    public required string Reason { get; init; }
}
