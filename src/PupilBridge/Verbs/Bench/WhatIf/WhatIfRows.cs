using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Verbs.Bench.WhatIf;

/// <summary>Sizes as they are and as they would be, as rows of RFC 4180. No cell needs quotation marks: they hold numbers and codes only.</summary>
internal static class WhatIfRows
{
    /// <summary>The columns' names.</summary>
    public const string Head =
        "exam,opened_at,calibration,eye,light,now_mm,now_expanded_mm,then_mm,then_expanded_mm,change_mm\r\n";

    /// <summary>The rows of an exam.</summary>
    /// <param name="exam">The exam.</param>
    public static string Of(WhatIfExam exam)
    {
        var rows = new StringBuilder();
        foreach (var size in exam.Sizes)
        {
            rows.Append(
                CultureInfo.InvariantCulture,
                $"{exam.Exam},{exam.OpenedAt.UtcDateTime:yyyy-MM-ddTHH:mm:ss.fffZ},{exam.Calibration},{size.Eye},{size.Light},"
                    + $"{size.NowMillimetres:0.0000},{size.NowExpandedMillimetres:0.0000},{size.ThenMillimetres:0.0000},"
                    + $"{size.ThenExpandedMillimetres:0.0000},{size.ThenMillimetres - size.NowMillimetres:0.0000}\r\n"
            );
        }

        return rows.ToString();
    }
}
