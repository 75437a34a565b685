using System.Globalization;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Records;

/// <summary>What the criteria say, as a record has it.</summary>
internal static class RecordCriteria
{
    /// <summary>The findings in the order in which they are listed.</summary>
    public static ValueList<RecordFinding> Of(CriteriaInput input) => [.. Findings.Of(input).Select(Of)];

    private static RecordFinding Of(Finding finding)
    {
        var criterion = CriteriaCatalogue.Find(finding.Criterion)!;
        var (value, limit) = (Decimal(finding.Value), Decimal(finding.Limit));
        return new()
        {
            Criterion = finding.Criterion,
            Verdict = RecordWords.Of(finding.Verdict),
            Reason = finding.Reason == FindingReason.None ? null : RecordWords.Of(finding.Reason),
            Eye = RecordWords.OfMaybe(finding.Eye),
            Light = RecordWords.OfMaybe(finding.Light),
            Block = finding.Block == Block.None ? null : RecordWords.Of(finding.Block),
            Value = value,
            ExpandedUncertainty = Decimal(finding.ExpandedUncertainty),
            Limit = limit,
            Unit = value is null && limit is null ? null : criterion.Unit,
            Sentence = finding.Sentence,
            Cautions = finding.Cautions,
            Sources = finding.Verdict == CriterionVerdict.NotExamined ? [] : criterion.Sources,
            FurtherLook = finding.Verdict is CriterionVerdict.Met or CriterionVerdict.CannotTell
                ? FindingText.FurtherLook(criterion, finding)
                : "",
        };
    }

    // Three places hold a micrometre; ties go away from zero as everywhere in a record.
    private static string? Decimal(double? number) =>
        number is { } known
            ? Math.Round((decimal)known, 3, MidpointRounding.AwayFromZero)
                .ToString("0.###", CultureInfo.InvariantCulture)
            : null;
}
