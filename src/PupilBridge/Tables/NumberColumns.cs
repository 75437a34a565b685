using System.Globalization;
using System.Text.RegularExpressions;
using PupilBridge.CommandLine;

namespace PupilBridge.Tables;

/// <summary>Numbers out of a table. A cell that is none is refused with its line; nothing is guessed or left out.</summary>
internal static partial class NumberColumns
{
    /// <summary>A column as numbers.</summary>
    /// <param name="table">The table.</param>
    /// <param name="place">The column's place, from 0.</param>
    /// <returns>One number for each row.</returns>
    /// <exception cref="CommandFailure">A cell is empty or no number.</exception>
    public static double[] Numbers(this PlainTable table, int place) =>
        [.. table.Rows.Select(row => Number(table, row, place))];

    /// <summary>Whether a column is meant to hold numbers: one cell at least looks like one, with a point or a comma.</summary>
    /// <param name="table">The table.</param>
    /// <param name="place">The column's place, from 0.</param>
    /// <returns>False for a column of names or words.</returns>
    public static bool IsOfNumbers(this PlainTable table, int place) =>
        table.Rows.Any(row => LikeANumber().IsMatch(row.Cells[place]));

    private static double Number(PlainTable table, PlainRow row, int place)
    {
        var text = row.Cells[place];
        if (TryParse(text, out var number))
        {
            return number;
        }

        var where = $"{table.Path}, line {row.Line}, column '{table.Headings[place]}'";
        if (text.Length == 0)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{where}: there is no value, so the columns are of unequal length.",
                "Every row needs a value in each column that is used; take the row out, or fill it."
            );
        }

        throw DecimalComma().IsMatch(text)
            ? new CommandFailure(
                ExitCode.Refused,
                $"{where}: '{text}' has a decimal comma.",
                "Save the table with decimal points (3.02 instead of 3,02)."
            )
            : new CommandFailure(
                ExitCode.Refused,
                $"{where}: '{text}' is no number.",
                "Numbers are written as in 3.02, without a unit and without marks between thousands."
            );
    }

    private static bool TryParse(string text, out double number) =>
        double.TryParse(
            // The minus of printed tables is meant as one.
            text.Replace('\u2212', '-'),
            NumberStyles.Float,
            CultureInfo.InvariantCulture,
            out number
        ) && double.IsFinite(number);

    [GeneratedRegex(@"^[+\-\u2212]?[\d.\s]*,\d+$")]
    private static partial Regex DecimalComma();

    [GeneratedRegex(@"^[+\-\u2212]?[\d.,]*\d[\d.,]*([eE][+\-]?\d+)?$")]
    private static partial Regex LikeANumber();
}
