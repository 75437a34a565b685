using System.Globalization;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// Where the key of something sealed lies, outside the journal. A patient has one key, for number and identity; each text (a remark, a
/// reason, a signed record) has a key of its own, so that it can go with whatever exam it belongs to in the end.
/// </summary>
/// <param name="Value">Twice the place in its file, from 0; one more where it is a text's.</param>
public readonly record struct KeySlot(long Value) : IComparable<KeySlot>
{
    /// <summary>The key of a patient.</summary>
    /// <param name="place">The place in the file of patients' keys, from 0.</param>
    public static KeySlot OfPatient(long place) => new(place * 2);

    /// <summary>The key of a text.</summary>
    /// <param name="place">The place in the file of texts' keys, from 0.</param>
    public static KeySlot OfText(long place) => new((place * 2) + 1);

    /// <summary>Whether it is a text's, and no patient's.</summary>
    public bool IsText => (Value & 1) != 0;

    /// <summary>The place in its file, from 0.</summary>
    public long Place => Value >> 1;

    /// <inheritdoc/>
    public int CompareTo(KeySlot other) => Value.CompareTo(other.Value);

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value}");

    /// <summary>Whether the left one's number is the lower.</summary>
    public static bool operator <(KeySlot left, KeySlot right) => left.Value < right.Value;

    /// <summary>Whether the left one's number is the higher.</summary>
    public static bool operator >(KeySlot left, KeySlot right) => left.Value > right.Value;

    /// <summary>Whether the left one's number is the lower, or both are one.</summary>
    public static bool operator <=(KeySlot left, KeySlot right) => left.Value <= right.Value;

    /// <summary>Whether the left one's number is the higher, or both are one.</summary>
    public static bool operator >=(KeySlot left, KeySlot right) => left.Value >= right.Value;
}
