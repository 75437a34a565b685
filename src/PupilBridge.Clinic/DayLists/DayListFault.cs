namespace PupilBridge.Clinic.DayLists;

/// <summary>One thing that is wrong with a file: where, what, and what to do.</summary>
/// <param name="Line">The line, from 1 for the headings; null for the file as a whole.</param>
/// <param name="Column">The column; null for the line as a whole.</param>
/// <param name="Wrong">What is wrong: a sentence.</param>
/// <param name="ToDo">What to do: a sentence.</param>
internal sealed record DayListFault(long? Line, DayListColumn? Column, string Wrong, string ToDo)
{
    /// <summary>The fault for a person to read.</summary>
    public override string ToString()
    {
        var column = Column is { } one ? DayListHeadings.NameOf(one) : null;
        var place = (Line, column) switch
        {
            (null, _) => "",
            (var line, null) => $"Line {line}: ",
            var (line, name) => $"Line {line}, column '{name}': ",
        };
        return $"{place}{Wrong} {ToDo}";
    }
}
