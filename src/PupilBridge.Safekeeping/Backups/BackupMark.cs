using System.Text;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Envelopes;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// The mark of a destination: by which envelope its pieces are sealed, and a few sealed words that prove a pass phrase before anything
/// is written or read. All backups of one destination share pieces, so they must open with the same.
/// </summary>
internal static class BackupMark
{
    private static readonly byte[] Words = Encoding.ASCII.GetBytes("PupilBridge backup, format 1\n");

    /// <summary>Makes sure that this destination is sealed as wanted; the first backup decides.</summary>
    /// <exception cref="BackupException">Earlier backups there are sealed in another way, or by another pass phrase or key.</exception>
    public static void Agree(BackupPlace place, Envelope envelope)
    {
        var named = place.Mark + ".txt";
        if (!File.Exists(named))
        {
            using var words = new MemoryStream();
            using (var content = envelope.Seal(words))
            {
                content.Write(Words);
            }

            PrivateFile.Replace(place.Mark + envelope.Suffix, words.ToArray());
            PrivateFile.Replace(named, Encoding.ASCII.GetBytes(envelope.Name + "\n"));
            return;
        }

        var before = File.ReadAllText(named).Trim();
        if (before != envelope.Name)
        {
            throw new BackupException(
                BackupTrouble.Refused,
                $"Earlier backups in {place.Folder} are sealed as '{before}', and this one would be as '{envelope.Name}'. Backups of one "
                    + "folder share pieces and must open alike.",
                "Name an empty folder for backups that are sealed in another way."
            );
        }

        Prove(place, envelope);
    }

    /// <summary>Makes sure that a pass phrase or key opens what lies there.</summary>
    /// <exception cref="BackupException">It does not.</exception>
    public static void Prove(BackupPlace place, Envelope envelope)
    {
        var path = place.Mark + envelope.Suffix;
        if (!envelope.CanOpen || !File.Exists(path))
        {
            // Then the pieces themselves tell.
            return;
        }

        try
        {
            using var sealedWords = File.OpenRead(path);
            using var opened = envelope.Open(sealedWords);
            opened.CopyTo(Stream.Null);
        }
        catch (WrongKeyException fault)
        {
            throw new BackupException(
                BackupTrouble.WrongKey,
                $"The backups in {place.Folder} cannot be opened: {fault.Message}.",
                "Give the pass phrase, or the private key, with which they were made. Nothing was changed.",
                fault
            );
        }
        catch (BrokenSealException)
        {
            // A wrong pass phrase passes the format's own quick check once in 65,536 times; damage to this file alone spoils nothing.
        }
    }

    /// <summary>How a destination is sealed; null where nothing says so.</summary>
    public static string? NameOf(BackupPlace place) =>
        File.Exists(place.Mark + ".txt") ? File.ReadAllText(place.Mark + ".txt").Trim() : null;
}
