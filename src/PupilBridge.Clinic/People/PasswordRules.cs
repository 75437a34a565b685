namespace PupilBridge.Clinic.People;

/// <summary>
/// What a password must be: long enough, not the name, none of the commonest. There are no rules about which characters it is made
/// of, and nothing makes people change it without a reason; both follow NIST SP 800-63B, section 5.1.1.2.
/// </summary>
public static class PasswordRules
{
    /// <summary>The fewest characters.</summary>
    public const int MinLength = 8;

    /// <summary>The most characters; a long sentence fits.</summary>
    public const int MaxLength = 256;

    /// <summary>Names shorter than this may happen to stand inside a good password.</summary>
    private const int ShortName = 4;

    /// <summary>What is wrong with a password.</summary>
    /// <param name="password">The password.</param>
    /// <param name="who">The sign-in name it is for.</param>
    /// <returns>A sentence for the person who chose it; null if it can be used.</returns>
    public static string? Fault(string? password, string who)
    {
        ArgumentNullException.ThrowIfNull(who);
        if (password is null || password.Length < MinLength)
        {
            return PeopleWords.PasswordTooShort(MinLength);
        }

        if (password.Length > MaxLength)
        {
            return PeopleWords.PasswordTooLong(MaxLength);
        }

        if (IsName(password, who))
        {
            return PeopleWords.PasswordIsName;
        }

        return IsOneCharacter(password) || CommonPasswords.Has(password) ? PeopleWords.PasswordIsCommon : null;
    }

    private static bool IsName(string password, string who)
    {
        var bare = string.Concat(password.Where(char.IsLetterOrDigit));
        var name = string.Concat(who.Where(char.IsLetterOrDigit));
        return name.Length > 0
            && (
                bare.Equals(name, StringComparison.OrdinalIgnoreCase)
                || IsRepeated(bare, name)
                || (
                    name.Length >= ShortName
                    && password.Contains(who, StringComparison.OrdinalIgnoreCase)
                    && password.Length < who.Length + MinLength
                )
            );
    }

    private static bool IsRepeated(string text, string part) =>
        text.Length % part.Length == 0
        && Enumerable
            .Range(0, text.Length / part.Length)
            .All(n =>
                text.AsSpan(n * part.Length, part.Length).Equals(part.AsSpan(), StringComparison.OrdinalIgnoreCase)
            )
        && text.Length > 0;

    private static bool IsOneCharacter(string password) => password.All(c => c == password[0]);
}
