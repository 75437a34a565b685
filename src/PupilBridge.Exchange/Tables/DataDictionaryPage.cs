using System.Text;
using PupilBridge.Exchange.Research;

namespace PupilBridge.Exchange.Tables;

/// <summary>The data dictionary of all tables, in Markdown, made of the columns themselves.</summary>
public static class DataDictionaryPage
{
    /// <summary>Writes it.</summary>
    public static string Write()
    {
        var text = new StringBuilder();
        text.AppendLine(
            """
            # Data dictionary

            Every column of the tables that `pupilbridge export` writes, made from the code by `pupilbridge export dictionary`; a test holds this
            page against it. How files are written, and what is done to texts, stands in [tables.md](tables.md).

            An **empty** cell (in JSON Lines `null`) says that there is nothing to say, most often that it was **not examined**. It is never normal.
            Words of a fixed list are in lower case with hyphens.
            """
        );
        Append(text, ClinicTables.Exams);
        Append(text, ClinicTables.Readings);
        var names = new Pseudonyms(new byte[Pseudonyms.SecretBytes], "");
        Append(text, ResearchTables.Exams(names, static _ => { }));
        Append(text, ResearchTables.Readings(names, static _ => { }));
        return text.ToString().ReplaceLineEndings("\n");
    }

    private static void Append<T>(StringBuilder text, Table<T> table)
    {
        text.AppendLine()
            .AppendLine($"## Table `{table.Name}`")
            .AppendLine()
            .AppendLine($"One row is {table.Row}.")
            .AppendLine()
            .AppendLine("| column | kind | unit | range | meaning |")
            .AppendLine("|---|---|---|---|---|");
        foreach (var column in table.Columns)
        {
            text.AppendLine(
                $"| `{column.Name}` | {Word(column.Kind)} | {column.Unit} | {Escaped(column.Range)} | {Escaped(column.Meaning)} |"
            );
        }
    }

    private static string Word(CellKind kind) =>
        kind switch
        {
            CellKind.Text => "text",
            CellKind.Word => "fixed words",
            CellKind.Whole => "whole number",
            CellKind.Fraction => "decimal number",
            CellKind.YesNo => "true or false",
            CellKind.Time => "moment",
            CellKind.Date => "day",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no such kind of cell."),
        };

    private static string Escaped(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);
}
