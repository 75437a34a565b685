using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Findings;

/// <summary>
/// The findings of an exam for people: of a signed one those that were signed, as long as nobody amends it; of any other one those that
/// hold now.
/// </summary>
internal static class FindingViews
{
    private static readonly string[] Order = ["met", "cannot-tell", "not-met", "not-examined"];

    /// <summary>The findings: met first, then what cannot be told, not met, and not examined.</summary>
    /// <param name="input">The exam with what criteria read beside it; only asked where nothing was signed.</param>
    /// <param name="exam">The exam.</param>
    public static IReadOnlyList<FindingView> Of(Exam exam, Func<CriteriaInput> input) =>
        [
            .. (SignedFindings.Of(exam) ?? SignedRecords.Findings(input()))
                .Select(finding => Of(exam, finding))
                .OrderBy(view => Array.IndexOf(Order, view.Verdict)),
        ];

    private static FindingView Of(Exam exam, RecordFinding finding) =>
        new()
        {
            Criterion = finding.Criterion,
            Verdict = finding.Verdict,
            Reason = finding.Reason,
            Eye = EyeOf(finding.Eye),
            Light = finding.Light,
            Block = finding.Block,
            Value = Number(finding.Value),
            ExpandedUncertainty = Number(finding.ExpandedUncertainty),
            Limit = Number(finding.Limit),
            Unit = finding.Unit,
            Sentence = finding.Sentence,
            Cautions = [.. finding.Cautions],
            Sources = [.. finding.Sources],
            FurtherLook = finding.FurtherLook,
            Raw = [.. RawBehind.Of(exam, finding)],
        };

    private static string? EyeOf(string? eye) =>
        eye switch
        {
            "right" => "OD",
            "left" => "OS",
            _ => null,
        };

    private static decimal? Number(string? text) =>
        decimal.TryParse(text, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : null;
}
