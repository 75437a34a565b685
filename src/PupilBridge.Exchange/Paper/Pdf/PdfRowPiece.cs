using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>One cell.</summary>
/// <param name="X">Where it begins, from the left margin, in points.</param>
/// <param name="Lines">What stands in it.</param>
/// <param name="IsHead">Whether it is the head of a row or a column.</param>
/// <param name="EndsAt">Where its lines end, from the left margin, in points; null where they begin at <paramref name="X"/>.</param>
internal sealed record PdfCell(double X, PdfLines Lines, bool IsHead, double? EndsAt);

/// <summary>One row of a table.</summary>
/// <param name="cells">Its cells.</param>
/// <param name="width">How wide the table is, in points.</param>
internal sealed class PdfRowPiece(IReadOnlyList<PdfCell> cells, double width) : PdfPiece
{
    private const double Padding = 0.45;

    /// <inheritdoc/>
    public override double Height => cells.Max(cell => cell.Lines.Height) + (2 * Padding);

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        place.Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
        foreach (var cell in cells)
        {
            place.Structure.BeginElement(
                cell.IsHead ? PdfBlockLevelElementTag.TableHeaderCell : PdfBlockLevelElementTag.TableDataCell
            );
            var top = y + Padding;
            foreach (var line in cell.Lines.Lines)
            {
                var x = cell.EndsAt is { } end ? end - place.Letters.Width(line, cell.Lines.Font) : cell.X;
                place.Set(line, cell.Lines.Font, place.Left + x, top);
                top += cell.Lines.LineHeight;
            }

            place.Structure.End();
        }

        place.Structure.End();
        place.Structure.BeginArtifact();
        var below = y + Height;
        place.Graphics.DrawLine(new XPen(XColors.Gray, 0.3), place.Left, below, place.Left + width, below);
        place.Structure.End();
    }
}
