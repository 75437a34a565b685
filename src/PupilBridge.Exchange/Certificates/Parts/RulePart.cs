using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>The rule that was agreed beforehand, in words with its source, and what each statement means.</summary>
internal static class RulePart
{
    private const string GuardBand = "guard-band";

    public static ReportSection Of(CertifiedRule rule)
    {
        var text = CertificateTerms.Text;
        // By simple acceptance there is no room for the statements between.
        string[] statements =
            rule.Kind == GuardBand ? ["pass", "conditional-pass", "conditional-fail", "fail"] : ["pass", "fail"];
        return new(
            text["Section.Rule"],
            [
                new ReportText(
                    text.Get(
                        $"Rule.{rule.Kind}",
                        Amounts.Millimetres(rule.Limit),
                        Amounts.Fixed(rule.GuardBandFactor, 2)
                    )
                ),
                new ReportText(text["Rule.Error"]),
                new ReportList(
                    text["Rule.Statements"],
                    [
                        .. statements.Select(statement => new ReportItem(
                            text.Get(
                                "Rule.Statement",
                                text.Of("Statement", statement),
                                text.Of($"Explained.{rule.Kind}", statement)
                            ),
                            ""
                        )),
                    ]
                ),
            ]
        );
    }
}
