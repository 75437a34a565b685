using UglyToad.PdfPig.Content;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>What must be so of every sheet, whatever stands on it.</summary>
internal static class PdfLayout
{
    /// <summary>Nothing stands outside the margins, and no line lies on another.</summary>
    /// <param name="page">The sheet; one with a stamp across it lies on itself by intent.</param>
    public static void Check(Page page)
    {
        const double Least = 20;
        Assert.All(
            page.Letters.Where(l => l.Value.Trim().Length > 0),
            letter =>
            {
                Assert.InRange(letter.BoundingBox.Left, Least, page.Width - Least);
                Assert.InRange(letter.BoundingBox.Right, Least, page.Width - Least);
                Assert.InRange(letter.BoundingBox.Bottom, Least, page.Height - Least);
            }
        );
        // Letters of different lines must not lie on each other: each against its neighbours, by the middles of their boxes.
        var boxes = page
            .Letters.Where(l => l.Value.Trim().Length > 0)
            .Select(l =>
                (l.Value, X: (l.BoundingBox.Left + l.BoundingBox.Right) / 2, Y: l.StartBaseLine.Y, l.PointSize)
            )
            .OrderBy(b => b.Y)
            .ToList();
        for (var i = 0; i < boxes.Count; i++)
        {
            for (var j = i + 1; j < boxes.Count && boxes[j].Y - boxes[i].Y < 0.7 * boxes[i].PointSize; j++)
            {
                var isSame = Math.Abs(boxes[j].X - boxes[i].X) < 0.15 * boxes[i].PointSize;
                Assert.False(isSame, $"'{boxes[i].Value}' and '{boxes[j].Value}' lie on each other at {boxes[i]}");
            }
        }
    }
}
