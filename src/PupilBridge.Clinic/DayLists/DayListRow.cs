namespace PupilBridge.Clinic.DayLists;

/// <summary>One patient of a file, understood.</summary>
/// <param name="Line">Where it stands, from 1 for the headings.</param>
/// <param name="Patient">The patient's number.</param>
/// <param name="Name">The name; null if the file gives none.</param>
/// <param name="BirthDate">The date of birth; null if the file gives none.</param>
/// <param name="Day">The day.</param>
/// <param name="Time">When they are expected, <c>HH:mm</c>; null if the file does not say.</param>
internal sealed record DayListRow(
    long Line,
    string Patient,
    string? Name,
    DateOnly? BirthDate,
    DateOnly Day,
    string? Time
);

/// <summary>A file, understood or not: with one fault nothing of it counts.</summary>
/// <param name="Rows">Its patients, in order.</param>
/// <param name="Unused">Headings of columns that are not ours.</param>
/// <param name="Faults">What is wrong.</param>
internal sealed record DayListFile(
    IReadOnlyList<DayListRow> Rows,
    IReadOnlyList<string> Unused,
    IReadOnlyList<DayListFault> Faults
);
