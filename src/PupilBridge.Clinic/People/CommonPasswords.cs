using System.Collections.Frozen;

namespace PupilBridge.Clinic.People;

/// <summary>
/// Passwords of at least eight characters that every guesser tries first: some ten thousand of the list of common passwords that the
/// strength estimator zxcvbn brings along (MIT), and beside it what people of a clinic think of when a program asks, from common knowledge.
/// </summary>
/// <remarks>Only its list is used. It is read when a password is first chosen, and takes about a megabyte from then on.</remarks>
internal static class CommonPasswords
{
    private const string List = "zxcvbn-core.Dictionaries.passwords.lst";

    private static readonly string[] Own =
    [
        "12345678",
        "123456789",
        "1234567890",
        "0123456789",
        "87654321",
        "987654321",
        "0987654321",
        "11223344",
        "12341234",
        "12344321",
        "13579246",
        "password",
        "password1",
        "password12",
        "password123",
        "passw0rd",
        "passw0rd1",
        "p@ssword",
        "p@ssw0rd",
        "mypassword",
        "newpassword",
        "changeme",
        "changeme1",
        "changeme123",
        "change-me",
        "letmein1",
        "letmein123",
        "welcome1",
        "welcome123",
        "administrator",
        "admin123",
        "admin1234",
        "adminadmin",
        "qwertyui",
        "qwertyuiop",
        "qwerty12",
        "qwerty123",
        "qwertz123",
        "qwertzui",
        "azertyui",
        "azerty123",
        "asdfghjk",
        "asdfghjkl",
        "zxcvbnm1",
        "1q2w3e4r",
        "1q2w3e4r5t",
        "1qaz2wsx",
        "q1w2e3r4",
        "qazwsxedc",
        "abcd1234",
        "abc12345",
        "abcdefgh",
        "abcdefg1",
        "a1b2c3d4",
        "aa123456",
        "iloveyou",
        "iloveyou1",
        "sunshine",
        "princess",
        "football",
        "baseball",
        "superman",
        "computer",
        "internet",
        "trustno1",
        "whatever",
        "monkey123",
        "dragon123",
        "master123",
        "summer2026",
        "winter2026",
        "spring2026",
        "autumn2026",
        "examiner",
        "examiner1",
        "clinician",
        "clinician1",
        "technician",
        "technician1",
        "hospital",
        "hospital1",
        "ophthalmology",
        "optometry",
        "pupilbridge",
        "pupilbridge1",
        "pupils123",
    ];

    private static readonly Lazy<FrozenSet<string>> All = new(() =>
        Published().Concat(Own).ToFrozenSet(StringComparer.OrdinalIgnoreCase)
    );

    /// <summary>Whether a password is one of them, blanks at its ends and capitals aside.</summary>
    public static bool Has(string password) => All.Value.Contains(password.Trim());

    /// <summary>The published list's passwords that are long enough to be chosen, the commonest first.</summary>
    /// <exception cref="InvalidOperationException">The library is not the one that this was written for.</exception>
    internal static IReadOnlyList<string> Published()
    {
        using var stream =
            typeof(Zxcvbn.Zxcvbn).Assembly.GetManifestResourceStream(List)
            ?? throw new InvalidOperationException($"The list {List} is not in the library any more.");
        using var reader = new StreamReader(stream);
        return
        [
            .. reader
                .ReadToEnd()
                .Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Where(password => password.Length >= PasswordRules.MinLength),
        ];
    }
}
