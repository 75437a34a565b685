namespace PupilBridge.Exchange.Tables;

/// <summary>One column of a table: what it is called, what it means, and how its value is found. The data dictionary is made of these.</summary>
/// <typeparam name="T">What a row is made of.</typeparam>
/// <param name="Name">Its name: lower case with underscores, with the unit at its end; never changed.</param>
/// <param name="Kind">What stands in it.</param>
/// <param name="Unit">The unit; empty for none.</param>
/// <param name="Range">What values there can be.</param>
/// <param name="Meaning">What it means, and what an empty cell means where that is not plain.</param>
/// <param name="Value">Finds the value.</param>
public sealed record Column<T>(
    string Name,
    CellKind Kind,
    string Unit,
    string Range,
    string Meaning,
    Func<T, Cell> Value
);
