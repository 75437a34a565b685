using Spectre.Console;

namespace PupilBridge.CommandLine;

/// <summary>
/// A table of text. A person at a terminal gets it with rules between head and rows, cut to the window's width; a file
/// or a pipe gets the same columns as plain text, uncut.
/// </summary>
/// <param name="columns">The columns' heads.</param>
internal sealed class TextTable(params string[] columns)
{
    private readonly List<string[]> rows = [];

    /// <summary>Adds a row.</summary>
    /// <param name="cells">As many cells as there are columns.</param>
    public void Add(params string[] cells) => rows.Add([.. cells.Select(PlainText.Shown)]);

    /// <summary>Prints the table; where it has no rows, remarks on that instead.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="whenEmpty">What to say where there is nothing to list.</param>
    public void Print(Call call, string whenEmpty)
    {
        if (rows.Count == 0)
        {
            call.Remark(whenEmpty);
            return;
        }

        Print(call.Terminal);
    }

    /// <summary>Prints the table.</summary>
    /// <param name="terminal">Where to.</param>
    public void Print(Terminal terminal)
    {
        if (terminal.IsInteractive)
        {
            PrintForPerson(terminal);
        }
        else
        {
            PrintPlain(terminal.Out);
        }
    }

    private void PrintForPerson(Terminal terminal)
    {
        var table = new Table { Border = TableBorder.Simple };
        foreach (var column in columns)
        {
            // Only the last column gives way in a narrow window.
            table.AddColumn(new TableColumn(Markup.Escape(column)) { NoWrap = column != columns[^1] });
        }

        foreach (var row in rows)
        {
            table.AddRow(row.Select(Markup.Escape).ToArray());
        }

        var console = AnsiConsole.Create(
            new AnsiConsoleSettings { Out = new AnsiConsoleOutput(terminal.Out), Interactive = InteractionSupport.No }
        );
        console.Profile.Width = terminal.Width;
        console.Write(table);
    }

    private void PrintPlain(TextWriter output)
    {
        var widths = columns
            .Select((head, at) => rows.Select(row => row[at].Length).Append(head.Length).Max())
            .ToArray();
        foreach (var row in rows.Prepend(columns))
        {
            output.WriteLine(string.Join("  ", row.Select((cell, at) => cell.PadRight(widths[at]))).TrimEnd());
        }
    }
}
