using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>One thing that is wrong with a file: where, what, and what to do.</summary>
/// <param name="Line">The line, from 1 for the headings; null for the file as a whole.</param>
/// <param name="Column">The column; null for the line as a whole.</param>
/// <param name="Words">What is wrong, and what to do: sentences.</param>
internal sealed record DayListFault(long? Line, DayListColumn? Column, string Words)
{
    /// <summary>The fault for a person to read.</summary>
    public override string ToString() =>
        (Line, Column) switch
        {
            (null, _) => Words,
            ({ } line, null) => ClinicText.DayLists.Get("Place.Line", line, Words),
            ({ } line, { } column) => ClinicText.DayLists.Get(
                "Place.Column",
                line,
                DayListHeadings.NameOf(column),
                Words
            ),
        };
}
