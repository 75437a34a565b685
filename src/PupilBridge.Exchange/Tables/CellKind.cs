namespace PupilBridge.Exchange.Tables;

/// <summary>What stands in a column, and so how a reader should take it.</summary>
public enum CellKind
{
    /// <summary>Text that a person typed or that was written for people. In CSV it is neutralised (<see cref="FormulaGuard"/>).</summary>
    Text = 1,

    /// <summary>One word of a fixed list, in lower case with hyphens.</summary>
    Word = 2,

    /// <summary>A whole number.</summary>
    Whole = 3,

    /// <summary>A number with a decimal point.</summary>
    Fraction = 4,

    /// <summary><c>true</c> or <c>false</c>.</summary>
    YesNo = 5,

    /// <summary>A moment: ISO 8601 in UTC with milliseconds.</summary>
    Time = 6,

    /// <summary>A day: year-month-day.</summary>
    Date = 7,
}
