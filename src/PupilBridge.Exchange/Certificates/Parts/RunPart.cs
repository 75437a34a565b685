using System.Globalization;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>What was calibrated, by whom, when, and under which conditions.</summary>
internal static class RunPart
{
    public static ReportSection Of(Certificate certificate)
    {
        var text = CertificateTerms.Text;
        var (instrument, run) = (certificate.Instrument, certificate.Run);
        return new(
            text["Section.Run"],
            [
                new ReportFacts([
                    new(text["Instrument"], instrument.Model),
                    new(text["Serial"], instrument.Serial),
                    new(text["Firmware"], instrument.Firmware),
                    new(
                        text["Step"],
                        text.Get(
                            "Step.Value",
                            instrument.ResolutionMicrometres.Right,
                            instrument.ResolutionMicrometres.Left
                        )
                    ),
                    new(text["Technician"], run.Technician),
                    new(text["Run"], run.Number.ToString(CultureInfo.InvariantCulture)),
                    new(text["Begun"], CertificateTerms.Moment(run.Begun)),
                    new(text["Ended"], CertificateTerms.Moment(run.Ended)),
                    new(
                        text["Temperature"],
                        run.TemperatureCelsius is { } celsius
                            ? text.Get("Temperature.Value", Amounts.Fixed(celsius, 1))
                            : text["NotRead"]
                    ),
                    new(text["Conditions"], run.Conditions.Length > 0 ? run.Conditions : text["NotSaid"]),
                    new(
                        text["Straightness"],
                        run.Straightness > 0
                            ? text.Get("Straightness.Value", Amounts.Uncertainty(run.Straightness))
                            : text["Straightness.None"]
                    ),
                    new(text["Order"], text.Get("Order.Value", run.Seed)),
                ]),
            ]
        );
    }
}
