using System.Security.Cryptography;
using PupilBridge.Clinic;

namespace PupilBridge.Exchange.Research;

/// <summary>
/// The file <c>research.key</c> in the data folder: the secret behind all pseudonyms. Only its owner may read it, and it is in no export.
/// Whoever holds it and a patient's number can find that patient in an export; without it nobody can make an export again.
/// </summary>
public static class ResearchSecret
{
    /// <summary>The file's name.</summary>
    public const string FileName = "research.key";

    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Reads the secret; where there is none yet, one is drawn and kept.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="random">The source of chance.</param>
    /// <exception cref="EntryProblemException">The file is damaged or open to others; the message says what to do.</exception>
    /// <exception cref="IOException">It can be neither read nor written.</exception>
    public static byte[] ReadOrMake(string dataFolder, RandomNumberGenerator random)
    {
        ArgumentNullException.ThrowIfNull(random);
        var path = Path.Combine(dataFolder, FileName);
        return File.Exists(path) ? Read(path) : Make(path, random);
    }

    private static byte[] Read(string path)
    {
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & ~(OwnerOnly | UnixFileMode.UserExecute)) != 0)
        {
            throw new EntryProblemException(ResearchText.Words.Get("Secret.Open", path));
        }

        var secret = File.ReadAllBytes(path);
        return secret.Length == Pseudonyms.SecretBytes
            ? secret
            : throw new EntryProblemException(ResearchText.Words.Get("Secret.Damaged", path, Pseudonyms.SecretBytes));
    }

    private static byte[] Make(string path, RandomNumberGenerator random)
    {
        var secret = new byte[Pseudonyms.SecretBytes];
        random.GetBytes(secret);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        var fresh = path + ".new";
        File.Delete(fresh);
        using (var file = new FileStream(fresh, options))
        {
            file.Write(secret);
            file.Flush(flushToDisk: true);
        }

        // Two exports at once: whichever came first stays.
        if (!File.Exists(path))
        {
            File.Move(fresh, path);
            return secret;
        }

        File.Delete(fresh);
        return Read(path);
    }
}
