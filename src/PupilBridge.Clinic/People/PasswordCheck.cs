using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace PupilBridge.Clinic.People;

/// <summary>
/// Hashes and checks passwords with the framework's hasher (PBKDF2 with HMAC-SHA-512, a salt for each). A name that nobody has costs
/// the same work as one that somebody has, so that the time taken does not tell which names exist.
/// </summary>
internal sealed class PasswordCheck
{
    /// <summary>Rounds of a new hash; about a tenth of a second of one core. Older hashes say theirs themselves.</summary>
    public const int DefaultRounds = 210_000;

    private readonly IPasswordHasher<object> hasher;
    private readonly string nobodys;

    /// <summary>Makes the check.</summary>
    /// <param name="rounds">Rounds of new hashes.</param>
    public PasswordCheck(int rounds = DefaultRounds)
        : this(new PasswordHasher<object>(Options.Create(new PasswordHasherOptions { IterationCount = rounds }))) { }

    /// <summary>Makes the check with a hasher of the caller's.</summary>
    /// <param name="hasher">The hasher; a test counts its work.</param>
    public PasswordCheck(IPasswordHasher<object> hasher)
    {
        this.hasher = hasher;
        nobodys = Hash("no password of anybody");
    }

    /// <summary>Hashes a password.</summary>
    public string Hash(string password) => hasher.HashPassword(this, password);

    /// <summary>Checks a password.</summary>
    /// <param name="hash">The hash; null where there is nobody of that name.</param>
    /// <param name="password">What was typed.</param>
    /// <returns>Whether it is right, and whether it should be hashed anew with today's rounds.</returns>
    public (bool IsRight, bool WantsNewHash) Check(string? hash, string password)
    {
        try
        {
            var found = hasher.VerifyHashedPassword(this, hash ?? nobodys, password);
            return (
                hash is not null && found != PasswordVerificationResult.Failed,
                hash is not null && found == PasswordVerificationResult.SuccessRehashNeeded
            );
        }
        catch (FormatException)
        {
            // Somebody edited the file by hand: nobody gets in with that.
            return (false, false);
        }
    }
}
