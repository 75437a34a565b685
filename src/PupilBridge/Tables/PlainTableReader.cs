using System.Text;
using CsvHelper;
using PupilBridge.CommandLine;

namespace PupilBridge.Tables;

/// <summary>
/// Reads tables as spreadsheets save them: RFC 4180, the columns' names in the first line, separated by whichever of comma,
/// semicolon or tab stands there most.
/// </summary>
internal static class PlainTableReader
{
    private const long MostBytes = 64 << 20;

    /// <summary>Reads a table.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The table, with at least one row.</returns>
    /// <exception cref="CommandFailure">The file is missing, unreadable, empty, or no table.</exception>
    public static PlainTable Read(string path) => Of(path, Text(path));

    /// <summary>Reads a table that is at hand.</summary>
    /// <param name="path">What it is called in refusals.</param>
    /// <param name="content">Its bytes.</param>
    /// <returns>The table, with at least one row.</returns>
    /// <exception cref="CommandFailure">It is empty, or no table.</exception>
    public static PlainTable Read(string path, Stream content) => Of(path, Text(path, content));

    private static PlainTable Of(string path, string text)
    {
        var records = Records(path, text);
        if (records.Count == 0)
        {
            throw Refused(path, "holds nothing", "The first line names the columns, each further line is a row.");
        }

        var headings = records[0].Cells;
        if (
            headings.Any(heading =>
                heading.Length > 0 && heading.All(c => char.IsAsciiDigit(c) || "+-.,eE ".Contains(c))
            )
        )
        {
            throw Refused(
                path,
                $"begins with numbers ({string.Join(" ", headings)}) where the columns' names belong",
                "Write a first line that names the columns."
            );
        }

        if (records.Count == 1)
        {
            throw Refused(path, "names columns and has no row", "Add the readings below the first line.");
        }

        return new PlainTable(path, headings, [.. records.Skip(1).Select(row => Fitted(path, headings, row))]);
    }

    private static string Text(string path)
    {
        try
        {
            if (Directory.Exists(path))
            {
                throw Refused(path, "is a folder", "Name the file in it.");
            }

            if (new FileInfo(path) is { Exists: true, Length: > MostBytes } large)
            {
                throw Refused(path, $"has {large.Length >> 20} MB", "A table may have at most 64 MB.");
            }

            using var content = File.OpenRead(path);
            return Text(path, content);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandFailure(ExitCode.NotFound, $"There is no file {path}.", "Check its name and folder.");
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(
                ExitCode.Storage,
                $"{path} cannot be read: {unreadable.Message}",
                "Check its permissions, or copy it to a folder of your own."
            );
        }
    }

    private static string Text(string path, Stream content)
    {
        // The reader knows UTF-16 by its mark, as some spreadsheets save it; without a mark it is UTF-8.
        using var reader = new StreamReader(content, Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        var text = reader.ReadToEnd();
        return
            text.Contains('\0', StringComparison.Ordinal) || text.StartsWith("PK\u0003\u0004", StringComparison.Ordinal)
            ? throw Refused(
                path,
                "is no text",
                "Save the spreadsheet as CSV (comma-separated values) and name that file."
            )
            : text;
    }

    private static List<PlainRow> Records(string path, string text)
    {
        var options = new CsvReaderOptions
        {
            HasHeader = false,
            Separator = SeparatorOf(text),
            TrimWhitespace = true,
            TrackLineNumbers = true,
            DetectSeparatorHint = false,
            OnMalformedRecord = broken =>
                throw Refused(
                    path,
                    $"has quotation marks that do not match, in line {broken.LineNumber}",
                    "A text in quotation marks ends with one; a quotation mark within it is doubled (\"\")."
                ),
        };
        var records = new List<PlainRow>();
        using var reader = CsvReader.Create(Encoding.UTF8.GetBytes(text), options);
        while (reader.Read())
        {
            string[] cells = [.. reader.Current.ToArray().Select(cell => cell.Trim())];
            if (cells.Any(cell => cell.Length > 0))
            {
                records.Add(new PlainRow(reader.LineNumber, cells));
            }
        }

        return records;
    }

    private static PlainRow Fitted(string path, IReadOnlyList<string> headings, PlainRow row)
    {
        if (row.Cells.Skip(headings.Count).Any(cell => cell.Length > 0))
        {
            throw Refused(
                path,
                $"has {row.Cells.Count} values in line {row.Line} and names {headings.Count} columns",
                "If its numbers have decimal commas (3,02), save it with decimal points (3.02)."
            );
        }

        return row with
        {
            Cells = [.. row.Cells.Concat(Enumerable.Repeat("", headings.Count)).Take(headings.Count)],
        };
    }

    private static char SeparatorOf(string text)
    {
        var first = text.Split('\n').FirstOrDefault(line => !string.IsNullOrWhiteSpace(line)) ?? "";
        return ((char[])[',', ';', '\t']).MaxBy(separator => first.Count(c => c == separator));
    }

    private static CommandFailure Refused(string path, string what, string next) =>
        new(ExitCode.Refused, $"{path} {what}.", next);
}
