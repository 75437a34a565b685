using System.Globalization;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.History;

/// <summary>
/// A patient's visits in rows, the latest first: sizes and their difference (right minus left) under each light, grades, and what the
/// criteria said otherwise than at the visit before. The same rows make the table of a terminal and the CSV file.
/// </summary>
public static class HistoryTable
{
    private static readonly string[] Eyes = ["OD", "OS"];
    private static readonly string[] Lights = ["bright", "dim"];

    /// <summary>The names of the columns, the same for every patient.</summary>
    public static IReadOnlyList<string> Columns { get; } =
    [
        "exam",
        "opened_utc",
        "status",
        .. Lights.SelectMany(light =>
            Eyes.SelectMany(eye => new[] { $"{eye}_{light}_mm", $"{eye}_{light}_u_mm" })
                .Append($"OD_minus_OS_{light}_mm")
                .Append($"OD_minus_OS_{light}_u_mm")
        ),
        "calibrated",
        "grades",
        "criteria_changed",
    ];

    /// <summary>The rows; a value that was not measured is empty.</summary>
    /// <param name="history">The visits.</param>
    public static IEnumerable<IReadOnlyList<string>> Rows(PatientHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return history.Visits.Select(Row);
    }

    /// <summary>The change of one criterion in words.</summary>
    /// <param name="change">The change.</param>
    public static string Words(CriterionChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        string?[] parts = [change.Eye, change.Light, change.Block];
        var where = string.Join(' ', parts.OfType<string>());
        var name = where.Length == 0 ? change.Criterion : $"{change.Criterion} ({where})";
        var text = HistoryWords.Text;
        return $"{name}: {text.Of("Verdict", change.From)} → {text.Of("Verdict", change.To)}";
    }

    /// <summary>Both sizes under one light, right before left, with their expanded uncertainty.</summary>
    /// <param name="visit">The visit.</param>
    /// <param name="light"><c>bright</c> or <c>dim</c>.</param>
    public static string Sizes(VisitView visit, string light)
    {
        ArgumentNullException.ThrowIfNull(visit);
        string?[] sizes =
        [
            .. Eyes.Select(eye =>
                Of(visit, eye, light) is { } size
                    ? $"{Number(size.Millimetres)}±{Number(size.UncertaintyMillimetres)}"
                    : "not examined"
            ),
        ];
        return sizes.All(size => size == "not examined") ? "not examined" : string.Join(" / ", sizes);
    }

    /// <summary>The difference of both sizes under one light with its expanded uncertainty; a dash where there is none.</summary>
    /// <param name="visit">The visit.</param>
    /// <param name="light"><c>bright</c> or <c>dim</c>.</param>
    public static string Difference(VisitView visit, string light)
    {
        ArgumentNullException.ThrowIfNull(visit);
        return visit.Differences.FirstOrDefault(d => d.Light == light) is not { } difference ? "-"
            : difference.UncertaintyMillimetres is { } u ? $"{Number(difference.Millimetres)}±{Number(u)}"
            : Number(difference.Millimetres);
    }

    private static SizeView? Of(VisitView visit, string eye, string light) =>
        visit.Sizes.LastOrDefault(s => s.Eye == eye && s.Light == light && !s.IsSuperseded);

    private static List<string> Row(VisitView visit) =>
        [
            visit.Exam.Exam.ToString(CultureInfo.InvariantCulture),
            visit.Exam.OpenedAt.ToUniversalTime().ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture),
            visit.Exam.Status,
            .. Lights.SelectMany(light => Numbers(visit, light)),
            visit.Sizes.Count == 0 ? ""
            : visit.Sizes.All(size => size.IsCalibrated) ? "yes"
            : "no",
            string.Join("; ", visit.Grades),
            string.Join("; ", visit.Changes.Select(Words)),
        ];

    private static IEnumerable<string> Numbers(VisitView visit, string light)
    {
        var sizes = Eyes.Select(eye => Of(visit, eye, light)).ToArray();
        foreach (var size in sizes)
        {
            yield return Number(size?.Millimetres);
            yield return Number(size?.UncertaintyMillimetres);
        }

        var difference = visit.Differences.FirstOrDefault(d => d.Light == light);
        yield return Number(difference?.Millimetres);
        yield return Number(difference?.UncertaintyMillimetres);
    }

    private static string Number(double? millimetres) =>
        millimetres is { } known
            ? Math.Round((decimal)known, 2, MidpointRounding.AwayFromZero)
                .ToString("0.00", CultureInfo.InvariantCulture)
            : "";
}
