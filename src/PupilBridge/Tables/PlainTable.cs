using PupilBridge.CommandLine;

namespace PupilBridge.Tables;

/// <summary>A plain table from a file: named columns, rows of text.</summary>
/// <param name="Path">The file, as it was named.</param>
/// <param name="Headings">The columns' names, from the first line.</param>
/// <param name="Rows">The rows that hold anything.</param>
internal sealed record PlainTable(string Path, IReadOnlyList<string> Headings, IReadOnlyList<PlainRow> Rows)
{
    /// <summary>The place of a column that a person named.</summary>
    /// <param name="name">The name; capitals make no difference where that leaves one column.</param>
    /// <returns>Its place, from 0.</returns>
    /// <exception cref="CommandFailure">No column, or more than one, has the name.</exception>
    public int PlaceOf(string name)
    {
        var found = Places(heading => heading == name.Trim());
        if (found.Count == 0)
        {
            found = Places(heading => string.Equals(heading, name.Trim(), StringComparison.OrdinalIgnoreCase));
        }

        return found.Count switch
        {
            1 => found[0],
            0 => throw new CommandFailure(
                ExitCode.NotFound,
                $"{Path} has no column '{name}'.",
                $"Its columns are: {Named()}."
            ),
            _ => throw new CommandFailure(
                ExitCode.Refused,
                $"{Path} has {found.Count} columns named '{name}'.",
                "Give each column a name of its own in the first line."
            ),
        };
    }

    /// <summary>The places of the columns whose names fit.</summary>
    /// <param name="fits">Whether a name fits.</param>
    /// <returns>Their places, from 0, in order.</returns>
    public IReadOnlyList<int> Places(Func<string, bool> fits) =>
        [.. Enumerable.Range(0, Headings.Count).Where(at => fits(Headings[at]))];

    /// <summary>The columns' names for a sentence.</summary>
    /// <returns>For example <c>'disc', 'indicated'</c>.</returns>
    public string Named() => string.Join(", ", Headings.Select(heading => $"'{heading}'"));
}

/// <summary>One row of a table.</summary>
/// <param name="Line">The line of the file where it begins, from 1.</param>
/// <param name="Cells">As many cells as there are columns; empty ones are empty texts.</param>
internal sealed record PlainRow(long Line, IReadOnlyList<string> Cells);
