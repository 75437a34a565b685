using System.Globalization;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// What stands in the place of a patient's number that cannot be read: <c>erased-12</c> where its key was destroyed,
/// <c>unreadable-12</c> where it is damaged. The exams of one patient so stay together without saying whose they are.
/// </summary>
public static class SealedNumbers
{
    private const string ErasedStem = "erased-";
    private const string UnreadableStem = "unreadable-";

    /// <summary>What stands for a number whose key was destroyed.</summary>
    /// <param name="slot">The patient's key.</param>
    public static PatientId Erased(KeySlot slot) => Of(ErasedStem, slot);

    /// <summary>What stands for a number whose key cannot be read.</summary>
    /// <param name="slot">The patient's key.</param>
    public static PatientId Unreadable(KeySlot slot) => Of(UnreadableStem, slot);

    /// <summary>Whether a number stands for an erased one.</summary>
    /// <param name="number">The number.</param>
    public static bool IsErased(PatientId number) => HasStem(number.Value, ErasedStem);

    /// <summary>The key of the patient for whom a number stands.</summary>
    /// <param name="number">The number.</param>
    /// <returns>Null for a number that stands for no erased patient.</returns>
    public static KeySlot? KeyOf(PatientId number) =>
        HasStem(number.Value, ErasedStem)
        && long.TryParse(
            number.Value.AsSpan(ErasedStem.Length),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var place
        )
        && place >= 1
            ? KeySlot.OfPatient(place - 1)
            : null;

    /// <summary>Whether a text is kept for this use, so that no patient may be given it as a number.</summary>
    /// <param name="text">The text.</param>
    public static bool IsReserved(string? text) => HasStem(text, ErasedStem) || HasStem(text, UnreadableStem);

    private static PatientId Of(string stem, KeySlot slot) =>
        new(string.Create(CultureInfo.InvariantCulture, $"{stem}{slot.Place + 1}"));

    private static bool HasStem(string? text, string stem) =>
        text is not null && text.StartsWith(stem, StringComparison.OrdinalIgnoreCase);
}
