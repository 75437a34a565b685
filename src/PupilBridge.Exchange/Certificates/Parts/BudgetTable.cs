using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>Every contribution to the uncertainty of one corrected reading, and what they come to.</summary>
internal static class BudgetTable
{
    public static ReportTable Of(CertifiedBudget budget)
    {
        var text = CertificateTerms.Text;
        return new(
            text.Get(
                "Budget.Caption",
                Amounts.Millimetres(budget.Indicated),
                Amounts.Millimetres(budget.Corrected),
                Amounts.Uncertainty(budget.ExpandedFor95)
            ),
            [text["Head.Contribution"], text["Head.Type"], text["Head.Uncertainty"], text["Head.Degrees"]],
            [0.58, 0.07, 0.14, 0.21],
            [
                .. budget.Lines.Select(line =>
                    (string[])
                        [
                            text.Of("Contribution", line.Kind),
                            line.Type,
                            Amounts.Uncertainty(line.StandardUncertainty),
                            Amounts.Degrees(line.DegreesOfFreedom),
                        ]
                ),
                [
                    text["Budget.Combined"],
                    "",
                    Amounts.Uncertainty(budget.StandardUncertainty),
                    Amounts.Degrees(budget.DegreesOfFreedom),
                ],
                [text["Budget.Factor2"], "", Amounts.Uncertainty(budget.ExpandedForFactor2), ""],
                [text["Budget.For95"], "", Amounts.Uncertainty(budget.ExpandedFor95), ""],
            ]
        )
        {
            StaysWhole = true,
            NumberColumns = [2, 3],
        };
    }
}
