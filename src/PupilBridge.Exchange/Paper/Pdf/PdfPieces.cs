using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>From what a report says to pieces of one letter size and width.</summary>
/// <param name="letters">The letters.</param>
/// <param name="width">The width between the margins, in points.</param>
/// <param name="tallest">The tallest that a paragraph may be before it is set in two, in points.</param>
internal sealed class PdfPieces(PdfLetters letters, double width, double tallest)
{
    private const PdfBlockLevelElementTag P = PdfBlockLevelElementTag.Paragraph;

    /// <summary>Whether sections that may stand in two columns do.</summary>
    public bool HasColumns { get; init; }

    /// <summary>Whether parts stand apart by more than what one sheet for all would leave.</summary>
    public bool IsRoomy { get; init; }

    /// <summary>How far a part stands below the one before it; below its section's head it stands close.</summary>
    private double Apart(bool isFirst) => letters.Size * (IsRoomy && !isFirst ? 0.55 : 0.15);

    /// <summary>The pieces of a report, in order.</summary>
    /// <param name="report">The report.</param>
    public IReadOnlyList<PdfPiece> Of(ReportDocument report) =>
        [
            .. Heading(report),
            .. report.Marks.Select((mark, n) => Mark(mark, n == 0)),
            .. HasColumns ? InColumns(report.Sections) : report.Sections.SelectMany(Section),
            Text(P, report.Caution, letters.Bold, letters.Size * 0.3),
        ];

    /// <summary>The title with what it is about behind it, or below where there is no room.</summary>
    private IEnumerable<PdfPiece> Heading(ReportDocument report)
    {
        var title = Lines(report.Title, letters.Title, 0);
        var x = letters.Width(report.Title, letters.Title) + letters.Size;
        var running = ReportFonts.Coverage.Printable(report.Running);
        if (title.Lines.Count > 1 || x + letters.Width(running, letters.Plain) > width)
        {
            yield return new PdfTextPiece(PdfBlockLevelElementTag.Heading1, [title], 0);
            yield return Text(P, report.Running, letters.Plain, 0);
            yield break;
        }

        var both = title with { Tail = new(running, letters.Plain, x) };
        yield return new PdfTextPiece(PdfBlockLevelElementTag.Heading1, [both], 0);
    }

    private PdfTextPiece Text(PdfBlockLevelElementTag tag, string text, XFont font, double before) =>
        new(tag, [Lines(text, font, 0)], before);

    private PdfLines Lines(string text, XFont font, double indent) => letters.Set(text, font, width - indent, indent);

    private PdfMarkPiece Mark(ReportMark mark, bool isFirst)
    {
        var word = ReportFonts.Coverage.Printable(mark.Word);
        var indent = PdfMarkPiece.WordWidth(word, letters) + (0.6 * letters.Size);
        var words = letters.Set(mark.Words, letters.Plain, width - indent - letters.Size, indent);
        return new(word, words, mark.IsWarning, letters, isFirst ? letters.Size * 0.4 : 0);
    }

    private IEnumerable<PdfPiece> Section(ReportSection section)
    {
        yield return new PdfTextPiece(
            PdfBlockLevelElementTag.Heading2,
            [Lines(section.Title, letters.Head, 0)],
            letters.Size * (IsRoomy ? 0.9 : 0.28)
        )
        {
            KeepsWithNext = true,
            IsRuled = true,
        };
        foreach (var piece in section.Parts.SelectMany((part, n) => Part(part, n == 0)))
            yield return piece;
    }

    /// <summary>Sections that may stand in columns and follow each other share them.</summary>
    private IEnumerable<PdfPiece> InColumns(IReadOnlyList<ReportSection> sections)
    {
        var gap = 1.5 * letters.Size;
        var column = (width - gap) / 2;
        var narrow = new PdfPieces(letters, column, tallest);
        List<PdfPiece> shared = [];
        foreach (var section in sections)
        {
            if (section.StandsInColumns)
            {
                shared.AddRange(narrow.Section(section));
                continue;
            }

            if (shared.Count > 0)
                yield return PdfColumnsPiece.Of(shared, column, gap);
            shared = [];
            foreach (var piece in Section(section))
                yield return piece;
        }

        if (shared.Count > 0)
            yield return PdfColumnsPiece.Of(shared, column, gap);
    }

    private IEnumerable<PdfPiece> Part(ReportPart part, bool isFirst) =>
        part switch
        {
            ReportFacts facts => Facts(facts),
            ReportTable table => Table(table, isFirst),
            ReportList list => List(list),
            ReportNotes notes => Notes(notes),
            ReportFigure figure => [new PdfFigurePiece(figure, letters)],
            ReportText text => Paragraph(text, isFirst),
            _ => throw new ArgumentException($"{part.GetType().Name} is no known part of a report.", nameof(part)),
        };

    /// <summary>A paragraph in one piece; one that is taller than half a sheet, such as a very long remark, in several.</summary>
    private IEnumerable<PdfPiece> Paragraph(ReportText text, bool isFirst)
    {
        var lines = Lines(text.Text, text.IsSmall ? letters.Small : letters.Plain, 0);
        return Chunks(lines).Select(chunk => new PdfTextPiece(P, [chunk], Apart(isFirst)));
    }

    private IEnumerable<PdfLines> Chunks(PdfLines lines)
    {
        var most = Math.Max(1, (int)(tallest / lines.LineHeight));
        return lines.Lines.Chunk(most).Select(chunk => lines with { Lines = chunk });
    }

    private IEnumerable<PdfPiece> List(ReportList list)
    {
        var group = new PdfGroup(PdfBlockLevelElementTag.List);
        if (list.Head.Length > 0)
        {
            yield return new PdfTextPiece(
                PdfBlockLevelElementTag.Heading3,
                [Lines(list.Head, letters.Bold, 0)],
                letters.Size * 0.25
            )
            {
                KeepsWithNext = true,
            };
        }

        var indent = letters.Size * 0.75;
        foreach (var item in list.Items)
        {
            var bullet = true;
            var all = letters.RunIn(item.Text, item.Beside, width - indent, indent);
            var isTall = all.Sum(run => run.Height) > tallest;
            foreach (
                var runs in isTall
                    ? Torn(item, indent)
                    :
                    [
                        [.. all],
                    ]
            )
            {
                yield return new PdfTextPiece(PdfBlockLevelElementTag.ListItem, runs, letters.Size * 0.1)
                {
                    Bullet = bullet ? "•" : "",
                    Group = group,
                };
                bullet = false;
            }
        }
    }

    /// <summary>An item that is taller than half a sheet, in parts.</summary>
    private IEnumerable<IReadOnlyList<PdfLines>> Torn(ReportItem item, double indent)
    {
        PdfLines[] all = [Lines(item.Text, letters.Plain, indent), Lines(item.Beside, letters.Small, indent)];
        return all.Where(run => run.Lines[0].Length > 0)
            .SelectMany(Chunks)
            .Select(chunk => (IReadOnlyList<PdfLines>)[chunk]);
    }

    /// <summary>One after the other without a new line for each, as many are shorter than half a line.</summary>
    private IEnumerable<PdfPiece> Notes(ReportNotes notes)
    {
        var all = notes.Notes.Select((note, n) => $"[{PaperWords.Number(n + 1)}] {note}.");
        return Paragraph(new ReportText(string.Join(' ', all)) { IsSmall = true }, isFirst: true);
    }

    private IEnumerable<PdfPiece> Table(ReportTable table, bool isFirst)
    {
        var group = new PdfGroup(PdfBlockLevelElementTag.Table);
        yield return new PdfTextPiece(
            P,
            [Lines(table.Caption, letters.Small, 0)],
            Apart(isFirst) + (letters.Size * 0.05)
        )
        {
            KeepsWithNext = true,
        };
        var head = Row(table, table.Heads, group, isHead: true);
        yield return head;
        for (var n = 0; n < table.Rows.Count; n++)
            yield return Row(
                table,
                table.Rows[n],
                group,
                isHead: false,
                head,
                keepsWithNext: table.StaysWhole && n < table.Rows.Count - 1
            );
    }

    private PdfRowPiece Row(
        ReportTable table,
        IReadOnlyList<string> row,
        PdfGroup group,
        bool isHead,
        PdfPiece? repeated = null,
        bool keepsWithNext = false
    )
    {
        var x = 0.0;
        List<PdfCell> cells = [];
        for (var n = 0; n < row.Count; n++)
        {
            var wide = width * table.Shares[n];
            var font =
                isHead || n == 0 ? (table.IsSmall ? letters.SmallBold : letters.Bold)
                : table.IsSmall ? letters.Small
                : letters.Plain;
            var room = wide - (0.6 * letters.Size);
            // Numbers that end where the words of the next column begin would run into them.
            var isBeforeWords = n + 1 < row.Count && !table.NumberColumns.Contains(n + 1);
            double? end = table.NumberColumns.Contains(n) ? x + room - (isBeforeWords ? letters.Size : 0) : null;
            cells.Add(new(x, letters.Set(row[n], font, room), isHead || n == 0, end));
            x += wide;
        }

        return new(cells, Math.Min(x, width))
        {
            Group = group,
            KeepsWithNext = isHead || keepsWithNext,
            Repeated = repeated,
        };
    }

    /// <summary>Two side by side where both have room in half the width, else one to a row.</summary>
    private IEnumerable<PdfPiece> Facts(ReportFacts facts)
    {
        var name = facts.Rows.Max(row => letters.Width(row.Name, letters.Bold)) + letters.Size;
        var half = (width / 2) - letters.Size;
        bool IsShort(ReportFact row) => name + letters.Width(row.Value, letters.Plain) <= half;
        for (var n = 0; n < facts.Rows.Count; n++)
        {
            var row = facts.Rows[n];
            if (n + 1 < facts.Rows.Count && IsShort(row) && IsShort(facts.Rows[n + 1]))
            {
                yield return new PdfFactsPiece([
                    Fact(row, 0, name, half),
                    Fact(facts.Rows[n + 1], width / 2, name, half),
                ]);
                n++;
            }
            else
                yield return new PdfFactsPiece([Fact(row, 0, name, width)]);
        }
    }

    private PdfFact Fact(ReportFact fact, double x, double name, double wide) =>
        new(x, letters.Set(fact.Name, letters.Bold, name), letters.Set(fact.Value, letters.Plain, wide - name, name));
}
