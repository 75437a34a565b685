using System.Globalization;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Certificates.Plots;
using PupilBridge.Exchange.Paper;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>Every reading of a scale in the order in which it was taken, those that do not count with the reason.</summary>
internal static class ReadingsAnnex
{
    /// <summary>The word of a reading that a person set aside.</summary>
    public const string SetAside = "set-aside";

    public static ReportSection Of(Certificate certificate, Eye eye)
    {
        var text = CertificateTerms.Text;
        var scale = certificate.Scales[eye];
        return new(
            text.Get("Section.Readings", CertificateTerms.Of(eye)),
            [
                new ReportTable(
                    text.Counted("Readings.Caption", scale.Readings.Count, scale.Readings.Count),
                    [
                        text["Head.Entry"],
                        text["Head.At"],
                        text["Head.Disc"],
                        text["Head.Nasal"],
                        text["Head.Temporal"],
                        text["Head.Indicated"],
                        text["Head.Residual"],
                        text["Head.Stands"],
                    ],
                    [0.07, 0.15, 0.08, 0.08, 0.1, 0.1, 0.12, 0.3],
                    [.. scale.Readings.Select(reading => Row(certificate, scale, reading))]
                )
                {
                    IsSmall = true,
                    NumberColumns = [3, 4, 5, 6],
                },
            ]
        );
    }

    private static string[] Row(Certificate certificate, CertifiedScale scale, CertifiedReading reading)
    {
        var text = CertificateTerms.Text;
        return
        [
            reading.Entry.ToString(CultureInfo.InvariantCulture),
            CertificateTerms.Clock(reading.At),
            reading.Disc.Length > 0 ? reading.Disc : text["None"],
            reading.NasalMicrometres.ToString(CultureInfo.InvariantCulture),
            reading.TemporalMicrometres.ToString(CultureInfo.InvariantCulture),
            Amounts.Millimetres(reading.Indicated),
            Residuals.Of(certificate, scale, reading) is { } residual
                ? Amounts.SignedMillimetres(residual)
                : text["None"],
            reading.State == SetAside
                ? text.Get("State.SetAsideBy", reading.By, reading.Reason)
                : text.Of("State", reading.State),
        ];
    }
}
