using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Entries;

/// <summary>
/// What identifies a patient is erased: the keys that are named here are destroyed, and with them everything that was sealed under them.
/// The entry is the order; whoever finds it destroys the keys, as often as it is found. It does not say who the patient was.
/// </summary>
public sealed record PatientErased : PersonEntry
{
    /// <summary>The most bytes that the reason may have in UTF-8.</summary>
    public const int MaxReasonBytes = 2_000;

    private readonly string orderedBy = "";

    /// <summary>The keys of the patient's numbers: one, and one more for each number merged into it.</summary>
    public required ValueList<KeySlot> Patients { get; init; }

    /// <summary>The keys of the remarks, reasons and signed records of the patient's exams.</summary>
    public required ValueList<KeySlot> Texts { get; init; }

    /// <summary>The patient's exams.</summary>
    public required ValueList<ExamId> Exams { get; init; }

    /// <summary>How many signed records were erased.</summary>
    public required int Records { get; init; }

    /// <summary>Who ordered it, such as the initials of the person answerable for the clinic's data; never the patient's name.</summary>
    /// <exception cref="ArgumentException">It is no short text.</exception>
    public required string OrderedBy
    {
        get => orderedBy;
        init => orderedBy = ShortText.Checked(value, nameof(OrderedBy), "Who ordered an erasure");
    }

    /// <summary>Why. It stays readable, and must not say who the patient was.</summary>
    public required string Reason { get; init; }
}
