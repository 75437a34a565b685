using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Report.Pdf;

/// <summary>From what a report says to pieces of one letter size and width.</summary>
/// <param name="letters">The letters.</param>
/// <param name="width">The width between the margins, in points.</param>
/// <param name="tallest">The tallest that a paragraph may be before it is set in two, in points.</param>
internal sealed class PdfPieces(PdfLetters letters, double width, double tallest)
{
    private const PdfBlockLevelElementTag P = PdfBlockLevelElementTag.Paragraph;

    /// <summary>The pieces of a report, in order.</summary>
    /// <param name="report">The report.</param>
    public IReadOnlyList<PdfPiece> Of(ReportDocument report) =>
        [
            Text(PdfBlockLevelElementTag.Heading1, report.Title, letters.Title, 0),
            Text(P, report.Running, letters.Small, 0),
            .. report.Marks.Select((mark, n) => Mark(mark, n == 0)),
            .. report.Sections.SelectMany(Section),
            Text(P, report.Caution, letters.Bold, letters.Size * 0.5),
        ];

    private PdfTextPiece Text(PdfBlockLevelElementTag tag, string text, XFont font, double before) =>
        new(tag, [Lines(text, font, 0)], before);

    private PdfLines Lines(string text, XFont font, double indent) =>
        new(letters.Lines(text, font, width - indent), font, indent);

    private PdfMarkPiece Mark(ReportMark mark, bool isFirst)
    {
        var word = ReportFonts.Coverage.Printable(mark.Word);
        var indent = PdfMarkPiece.WordWidth(word, letters) + (0.6 * letters.Size);
        var words = new PdfLines(
            letters.Lines(mark.Words, letters.Plain, width - indent - letters.Size),
            letters.Plain,
            indent
        );
        return new(word, words, mark.IsWarning, letters, isFirst ? letters.Size * 0.4 : 0);
    }

    private IEnumerable<PdfPiece> Section(ReportSection section)
    {
        yield return new PdfTextPiece(
            PdfBlockLevelElementTag.Heading2,
            [Lines(section.Title, letters.Head, 0)],
            letters.Size * 0.55
        )
        {
            KeepsWithNext = true,
            IsRuled = true,
        };
        foreach (var piece in section.Parts.SelectMany(Part))
            yield return piece;
    }

    private IEnumerable<PdfPiece> Part(ReportPart part) =>
        part switch
        {
            ReportFacts facts => Facts(facts),
            ReportTable table => Table(table),
            ReportList list => List(list),
            ReportFigure figure => [new PdfFigurePiece(figure, letters)],
            ReportText text => Paragraph(text.Text),
            _ => throw new ArgumentException($"{part.GetType().Name} is no known part of a report.", nameof(part)),
        };

    /// <summary>A paragraph in one piece; one that is taller than half a sheet, such as a very long remark, in several.</summary>
    private IEnumerable<PdfPiece> Paragraph(string text)
    {
        var lines = Lines(text, letters.Plain, 0);
        return Chunks(lines).Select(chunk => new PdfTextPiece(P, [chunk], letters.Size * 0.15));
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

        var indent = letters.Size * 0.9;
        foreach (var item in list.Items)
        {
            var bullet = true;
            PdfLines[] all =
                item.Beside.Length > 0
                    ? [Lines(item.Text, letters.Plain, indent), Lines(item.Beside, letters.Small, indent)]
                    : [Lines(item.Text, letters.Plain, indent)];
            var isTall = all.Sum(run => run.Height) > tallest;
            foreach (var runs in isTall ? all.SelectMany(Chunks).Select(c => new[] { c }) : [all])
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

    private IEnumerable<PdfPiece> Table(ReportTable table)
    {
        var group = new PdfGroup(PdfBlockLevelElementTag.Table);
        yield return new PdfTextPiece(P, [Lines(table.Caption, letters.Small, 0)], letters.Size * 0.2)
        {
            KeepsWithNext = true,
        };
        var head = Row(table, table.Heads, group, isHead: true);
        yield return head;
        foreach (var row in table.Rows)
            yield return Row(table, row, group, isHead: false, head);
    }

    private PdfRowPiece Row(
        ReportTable table,
        IReadOnlyList<string> row,
        PdfGroup group,
        bool isHead,
        PdfPiece? repeated = null
    )
    {
        var x = 0.0;
        List<PdfCell> cells = [];
        for (var n = 0; n < row.Count; n++)
        {
            var wide = width * table.Shares[n];
            var font = isHead || n == 0 ? letters.Bold : letters.Plain;
            var lines = letters.Lines(row[n], font, wide - (0.6 * letters.Size));
            cells.Add(new(x, new(lines, font, 0), isHead || n == 0));
            x += wide;
        }

        return new(cells)
        {
            Group = group,
            KeepsWithNext = isHead,
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
        new(
            x,
            new(letters.Lines(fact.Name, letters.Bold, name), letters.Bold, 0),
            new(letters.Lines(fact.Value, letters.Plain, wide - name), letters.Plain, name)
        );
}
