using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>
/// One column for each criterion. A criterion may speak of several eyes, lights or blocks; all that it said stands in the cell, so that
/// a "not met" of one light never hides that the other was not examined.
/// </summary>
internal static class ExamFindings
{
    private const string Form = "verdict, then what it is about, as in 'met right bright'; several with '; ' between";

    public static IReadOnlyList<Column<OutgoingRecord>> All { get; } =
    [
        .. CriteriaCatalogue.All.Select(criterion => new Column<OutgoingRecord>(
            $"finding_{criterion.Id.Replace('-', '_')}",
            CellKind.Word,
            "",
            $"{Form}; verdicts: {Vocabulary.Of<CriterionVerdict>()}",
            $"Whether {criterion.Asks.TrimEnd('.')}. Never a diagnosis, and 'not-met' reassures of nothing; see docs/criteria.md, "
                + $"{criterion.Id}. Empty in records that were signed before there were findings.",
            exam => Cell.Of(Said(exam.Record, criterion.Id))
        )),
    ];

    private static string Said(SignedRecord record, string criterion) =>
        string.Join(
            "; ",
            record
                .Findings.Where(finding => finding.Criterion == criterion)
                .Select(finding =>
                    string.Join(
                        ' ',
                        new[] { finding.Verdict, finding.Eye, finding.Light, finding.Block }.Where(w => w is not null)
                    )
                )
        );
}
