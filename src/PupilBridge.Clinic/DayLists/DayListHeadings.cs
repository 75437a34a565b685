using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>
/// By which words a column is recognised in the first line of a file: plain English, and what the clinic adds. Capitals, blanks,
/// underscores, hyphens and full stops do not matter.
/// </summary>
public sealed class DayListHeadings
{
    private static readonly (DayListColumn Column, string[] Words)[] Plain =
    [
        (
            DayListColumn.Patient,
            ["patient", "patient-number", "patient-no", "patient-id", "number", "no", "id", "identifier"]
        ),
        (DayListColumn.Name, ["name", "patient-name", "full-name"]),
        (DayListColumn.BirthDate, ["birth-date", "date-of-birth", "birthday", "born", "dob"]),
        (DayListColumn.Time, ["time", "at", "appointment", "appointment-time", "expected"]),
        (DayListColumn.Day, ["day", "date", "appointment-date"]),
    ];

    private readonly Dictionary<string, DayListColumn> columns = new(StringComparer.Ordinal);

    /// <summary>Takes the plain words, and the clinic's own, which go before them.</summary>
    /// <param name="own">The clinic's words; null for none.</param>
    public DayListHeadings(IEnumerable<KeyValuePair<DayListColumn, string>>? own = null)
    {
        foreach (var (column, words) in Plain)
        {
            foreach (var word in words)
            {
                columns[Bare(word)] = column;
            }
        }

        foreach (var (column, word) in own ?? [])
        {
            columns[Bare(word)] = column;
        }
    }

    /// <summary>The plain words alone.</summary>
    public static DayListHeadings Default { get; } = new();

    /// <summary>The column that a heading names.</summary>
    /// <param name="heading">The heading as it stands in the file.</param>
    /// <returns>Null for a column that is not one of ours.</returns>
    public DayListColumn? Find(string heading) => columns.TryGetValue(Bare(heading), out var column) ? column : null;

    /// <summary>A column's name as messages have it.</summary>
    /// <param name="column">The column.</param>
    public static string NameOf(DayListColumn column) => ClinicText.DayLists.Of("Column", column);

    private static string Bare(string heading) =>
        string.Concat(heading.Where(c => !char.IsWhiteSpace(c) && c is not ('_' or '-' or '.'))).ToUpperInvariant();
}
