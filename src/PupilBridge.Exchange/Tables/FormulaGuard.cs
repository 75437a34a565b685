namespace PupilBridge.Exchange.Tables;

/// <summary>
/// Keeps a spreadsheet from taking a text for a formula. The rule: a text cell of a CSV file whose first character other than a blank is
/// <c>= + - @</c>, one of their full-width forms, a tab, a carriage return or a line feed gets an apostrophe before it; so does one that
/// begins with an apostrophe already, so that taking one leading apostrophe away always gives the text back. Cells of numbers, times,
/// days and fixed words are made by the program and never touched: a negative number stays a number.
/// </summary>
/// <remarks>
/// The characters are those of the OWASP page "CSV Injection" (from memory), with the blank before them and the apostrophe added by us.
/// JSON Lines need no such rule.
/// </remarks>
public static class FormulaGuard
{
    private const char Mark = '\'';
    private const string Starts = "=+-@\t\r\n＝＋－＠";

    /// <summary>The text as it stands in a CSV file.</summary>
    /// <param name="text">The text.</param>
    public static string Guarded(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length > 0 && (text[0] == Mark || IsRisky(text)) ? Mark + text : text;
    }

    /// <summary>The text that <see cref="Guarded"/> was given.</summary>
    /// <param name="cell">The text of a cell.</param>
    public static string Restored(string cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return cell.StartsWith(Mark) ? cell[1..] : cell;
    }

    private static bool IsRisky(string text)
    {
        foreach (var letter in text)
        {
            if (Starts.Contains(letter, StringComparison.Ordinal))
            {
                return true;
            }

            if (!char.IsWhiteSpace(letter))
            {
                return false;
            }
        }

        return false;
    }
}
