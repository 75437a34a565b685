using System.Globalization;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Finds patients by the beginnings of words: the longest is read from the keys, the others are compared.</summary>
internal static class PatientSearch
{
    /// <summary>The most keys that one page looks at; a page that has looked at so many ends there, full or not.</summary>
    public const int MostRead = 1000;

    private const int PieceSize = 100;

    /// <summary>What is looked for.</summary>
    /// <param name="Beginnings">Folded beginnings of words, at least one.</param>
    /// <param name="After">Where the page before ended; null for the first page.</param>
    /// <param name="Limit">The most patients on the page.</param>
    public sealed record Wanted(IReadOnlyList<string> Beginnings, string? After, int Limit)
    {
        /// <summary>The beginning that leaves the fewest patients to pass over, as far as one can tell without looking.</summary>
        public string Longest { get; } = Beginnings.MaxBy(beginning => beginning.Length)!;
    }

    /// <summary>Reads one page, in the order of the words and then of the numbers.</summary>
    public static Page<StoredPatient> List(DocumentFile file, DocumentShelf<StoredPatient> patients, Wanted wanted)
    {
        var found = new List<StoredPatient>(wanted.Limit);
        string? next = null;
        var lower = wanted.After is { } after ? KeyAt(file, patients, after, wanted.Longest) : wanted.Longest;
        for (var read = 0; read < MostRead; read += PieceSize)
        {
            var from = lower;
            var piece = SteadyReading.Read(
                file,
                "searching patients",
                database => Piece(database, patients, from, wanted.Longest)
            );
            foreach (var (key, patient) in piece)
            {
                lower = key;
                next = PlaceOf(patient, key, wanted.Longest);
                // One who has two words with the same beginning is shown at the first.
                if (key == KeysOf(patient, wanted.Longest)[0] && Fits(patient, wanted.Beginnings))
                {
                    found.Add(patient);
                }

                if (found.Count == wanted.Limit)
                {
                    return new Page<StoredPatient>(found, next);
                }
            }

            if (piece.Count < PieceSize)
            {
                return new Page<StoredPatient>(found, null);
            }
        }

        return new Page<StoredPatient>(found, next);
    }

    private static List<(string Key, StoredPatient Patient)>? Piece(
        LiteDatabase database,
        DocumentShelf<StoredPatient> patients,
        string lower,
        string beginning
    )
    {
        var keys = patients.Keys!.Read(database, lower, SortKey.EndOfBeginning(beginning), PieceSize, falling: false);
        var found = patients.FindMany(database, keys.ConvertAll(SortKey.IdIn));
        var belong =
            found.Count == keys.Count
            && found.Zip(keys).All(pair => patients.Kind.KeysOf(pair.First).Contains(pair.Second));
        return belong ? [.. keys.Zip(found)] : null;
    }

    private static bool Fits(StoredPatient patient, IReadOnlyList<string> beginnings)
    {
        var words = PatientKind.WordsOf(patient);
        return beginnings.All(beginning => words.Any(word => word.StartsWith(beginning, StringComparison.Ordinal)));
    }

    /// <summary>The keys of a patient under which a beginning finds them, in order.</summary>
    private static List<string> KeysOf(StoredPatient patient, string beginning) =>
        [.. PatientKind.Instance.KeysOf(patient).Where(key => key.StartsWith(beginning, StringComparison.Ordinal))];

    /// <summary>
    /// What a page says to go on from: which of the patient's keys it came to, and the patient. The key itself would tell a part of a
    /// name to whoever sees the request.
    /// </summary>
    private static string PlaceOf(StoredPatient patient, string key, string beginning) =>
        string.Create(CultureInfo.InvariantCulture, $"{KeysOf(patient, beginning).IndexOf(key)}:{patient.Id}");

    /// <summary>The key that a page ended with; the beginning of the list if that patient is not in it any more.</summary>
    private static string KeyAt(
        DocumentFile file,
        DocumentShelf<StoredPatient> patients,
        string place,
        string beginning
    )
    {
        var cut = place.IndexOf(':', StringComparison.Ordinal);
        if (
            cut < 1
            || !int.TryParse(place.AsSpan(0, cut), NumberStyles.None, CultureInfo.InvariantCulture, out var which)
        )
        {
            throw new ArgumentException(
                $"'{place}' is no place in a list of patients; leave it out to start at the beginning."
            );
        }

        var patient = file.Read("finding a patient", database => patients.Find(database, place[(cut + 1)..]));
        var keys = patient is null ? [] : KeysOf(patient, beginning);
        return keys.Count == 0 ? beginning : keys[Math.Min(which, keys.Count - 1)];
    }
}
