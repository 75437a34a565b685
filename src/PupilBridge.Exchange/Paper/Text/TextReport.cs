using System.Text;

namespace PupilBridge.Exchange.Paper.Text;

/// <summary>A report as plain text: the twin of page and paper for screen readers, terminals and systems that take nothing else.</summary>
public static class TextReport
{
    private const int Width = 96;

    /// <summary>Writes a report.</summary>
    /// <param name="report">The report.</param>
    /// <returns>Lines of at most 96 characters, as far as words allow, with line feeds between.</returns>
    public static string Write(ReportDocument report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var text = new StringBuilder();
        void Line(string line = "") => text.Append(VisibleText.Of(line)).Append('\n');
        Line(report.Title);
        Line(report.Running);
        foreach (var mark in report.Marks)
            Wrap($"{(mark.IsWarning ? "!! " : "")}{mark.Word}: {mark.Words}", "", "   ", Line);
        foreach (var section in report.Sections)
        {
            Line();
            Line(section.Title);
            Line(new string('-', section.Title.Length));
            foreach (var part in section.Parts)
                Part(part, Line);
        }

        Line();
        Wrap(report.Caution, "", "", Line);
        return text.ToString();
    }

    private static void Part(ReportPart part, Action<string> line)
    {
        switch (part)
        {
            case ReportFacts facts:
                foreach (var row in facts.Rows)
                    Wrap($"{row.Name}: {row.Value}", "", "  ", line);
                break;
            case ReportTable table:
                Table(table, line);
                break;
            case ReportList list:
                if (list.Head.Length > 0)
                    line($"{list.Head}:");
                foreach (var item in list.Items)
                {
                    Wrap(item.Text, "- ", "  ", line);
                    if (item.Beside.Length > 0)
                        Wrap(item.Beside, "  ", "  ", line);
                }

                break;
            case ReportNotes notes:
                for (var n = 0; n < notes.Notes.Count; n++)
                    Wrap(notes.Notes[n], $"[{PaperWords.Number(n + 1)}] ", "    ", line);
                break;
            case ReportFigure figure:
                Wrap(figure.Alternative, "", "", line);
                break;
            case ReportText paragraph:
                Wrap(paragraph.Text, "", "  ", line);
                break;
            default:
                throw new ArgumentException($"{part.GetType().Name} is no known part of a report.", nameof(part));
        }
    }

    /// <summary>A row as a sentence, each cell after the head of its column: read aloud, a grid of blanks says nothing.</summary>
    private static void Table(ReportTable table, Action<string> line)
    {
        Wrap(table.Caption, "", "", line);
        foreach (var row in table.Rows)
        {
            var cells = row.Skip(1).Zip(table.Heads.Skip(1), (cell, head) => $"{head} {cell}");
            Wrap($"{row[0]}: {string.Join("; ", cells.Where((_, n) => row[n + 1].Length > 0))}", "  ", "    ", line);
        }
    }

    private static void Wrap(string text, string first, string next, Action<string> line)
    {
        var current = new StringBuilder(first);
        var isEmpty = true;
        foreach (var word in text.Split((char[])[' ', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!isEmpty && current.Length + 1 + word.Length > Width)
            {
                line(current.ToString());
                current.Clear().Append(next);
                isEmpty = true;
            }

            if (!isEmpty)
                current.Append(' ');
            current.Append(word);
            isEmpty = false;
        }

        line(current.ToString());
    }
}
