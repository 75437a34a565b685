namespace PupilBridge.Exams.Entries;

/// <summary>
/// Who entered something: the initials or sign-in name of an examiner or clinician. The default value names nobody and
/// reads as <c>?</c>.
/// </summary>
public readonly record struct PersonId
{
    private readonly string? value;

    /// <summary>Checks and takes a name.</summary>
    /// <param name="value">1 to 64 characters, none of them a control character, no blank at either end.</param>
    /// <exception cref="ArgumentException">The text is something else.</exception>
    public PersonId(string value) =>
        this.value = ShortText.Checked(value, nameof(value), "A person's initials or name");

    /// <summary>The text.</summary>
    public string Value => value ?? "?";

    /// <inheritdoc/>
    public override string ToString() => Value;
}

/// <summary>
/// The clinic's own number for a patient, such as <c>Q-1001</c>. The default value names nobody and reads as <c>?</c>.
/// </summary>
public readonly record struct PatientId
{
    private readonly string? value;

    /// <summary>Checks and takes a patient's number.</summary>
    /// <param name="value">1 to 64 characters, none of them a control character, no blank at either end.</param>
    /// <exception cref="ArgumentException">The text is something else.</exception>
    public PatientId(string value) => this.value = ShortText.Checked(value, nameof(value), "A patient's number");

    /// <summary>The text.</summary>
    public string Value => value ?? "?";

    /// <inheritdoc/>
    public override string ToString() => Value;
}

/// <summary>What a short name must look like to be taken.</summary>
public static class ShortText
{
    /// <summary>The most characters that a short name may have.</summary>
    public const int MaxLength = 64;

    /// <summary>Whether a text can be a short name: 1 to 64 characters, no control character, no blank at either end.</summary>
    /// <param name="text">The text; null is none.</param>
    /// <returns>True if it can.</returns>
    public static bool IsValid(string? text)
    {
        if (string.IsNullOrEmpty(text) || text.Length > MaxLength)
            return false;
        if (char.IsWhiteSpace(text[0]) || char.IsWhiteSpace(text[^1]))
            return false;
        return !text.Any(char.IsControl);
    }

    internal static string Checked(string value, string parameter, string what) =>
        IsValid(value)
            ? value
            : throw new ArgumentException(
                $"{what} has 1 to {MaxLength} characters, no control characters and no blank at either end; this is '{value}'.",
                parameter
            );
}
