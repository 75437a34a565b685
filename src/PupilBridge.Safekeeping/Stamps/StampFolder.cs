using System.Globalization;
using System.Text;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Stamps;

/// <summary>
/// The time stamps of a data folder: for each the head that was stamped, as text (<c>head-….txt</c>), and the token (<c>head-….tst</c>, CMS).
/// </summary>
/// <param name="DataFolder">The data folder.</param>
public sealed record StampFolder(string DataFolder)
{
    private const string Prefix = "head-";
    private const string TokenSuffix = ".tst";
    private const string HeadSuffix = ".txt";

    /// <summary>The folder.</summary>
    public string Folder => Path.Combine(DataFolder, "stamps");

    /// <summary>The tokens that are kept, the oldest head first.</summary>
    public IReadOnlyList<string> Tokens =>
        Directory.Exists(Folder)
            ? [.. Directory.GetFiles(Folder, Prefix + "*" + TokenSuffix).Order(StringComparer.Ordinal)]
            : [];

    /// <summary>Keeps a stamp.</summary>
    public string Keep(JournalPosition head, byte[] token)
    {
        PrivateFile.MakeFolder(Folder);
        var name = string.Create(CultureInfo.InvariantCulture, $"{Prefix}{head.Sequence:D12}");
        PrivateFile.Replace(Path.Combine(Folder, name + HeadSuffix), Encoding.ASCII.GetBytes(head.ToString()));
        var path = Path.Combine(Folder, name + TokenSuffix);
        PrivateFile.Replace(path, token);
        return path;
    }

    /// <summary>The file with the head that a token stamps.</summary>
    internal static string HeadOf(string token) => token[..^TokenSuffix.Length] + HeadSuffix;

    /// <summary>Whether a file of a data folder belongs to the stamp of a head that a journal does not reach.</summary>
    /// <param name="name">The file's name, with slashes.</param>
    /// <param name="sequence">The journal's last sequence.</param>
    internal static bool IsBeyond(string name, long sequence) =>
        name.StartsWith("stamps/" + Prefix, StringComparison.Ordinal)
        && long.TryParse(
            name["stamps/".Length..][Prefix.Length..].Split('.')[0],
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var stamped
        )
        && stamped > sequence;
}
