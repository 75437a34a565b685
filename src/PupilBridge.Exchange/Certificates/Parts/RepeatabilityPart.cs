using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>How well settings on a living pupil repeat, which no disc can tell.</summary>
internal static class RepeatabilityPart
{
    public static ReportSection Of(CertifiedRepeatability? repeatability)
    {
        var text = CertificateTerms.Text;
        return new(
            text["Section.Repeatability"],
            [
                new ReportText(
                    repeatability is { } live
                        ? text.Get(
                            "Repeatability.Value",
                            Amounts.Uncertainty(live.StandardDeviation),
                            Amounts.Degrees(live.DegreesOfFreedom),
                            live.Run
                        )
                        : text["Repeatability.None"]
                ),
            ]
        );
    }
}
