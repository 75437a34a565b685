using System.Globalization;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>How stimuli were timed, eye by eye and between the eyes.</summary>
internal static class TimingPart
{
    public static ReportSection Of(CertifiedTiming? timing)
    {
        var text = CertificateTerms.Text;
        if (timing is null)
            return new(text["Section.Timing"], [new ReportText(text["Timing.None"])]);
        List<ReportPart> parts = [new ReportText(text.Get("Timing.Words", timing.Source)), EyesTable(timing)];
        if (timing.Asymmetries.Count > 0)
            parts.Add(AsymmetriesTable(timing));
        return new(text["Section.Timing"], parts);
    }

    /// <summary>A block and an eye, for people.</summary>
    public static string Name(CertifiedEyeTiming eye) =>
        CertificateTerms.Text.Get(
            "Timing.Name",
            CertificateTerms.Text.Of("Block", eye.Block),
            CertificateTerms.Text.Of("Eye", eye.Eye)
        );

    private static ReportTable EyesTable(CertifiedTiming timing)
    {
        var text = CertificateTerms.Text;
        return new(
            text["Timing.Caption"],
            [
                text["Head.Block"],
                text["Head.Count"],
                text["Head.Dwell"],
                text["Head.Jitter"],
                text["Head.Range"],
                text["Head.Allowed"],
                text["Head.DwellVerdict"],
                text["Head.Gap"],
                text["Head.GapVerdict"],
            ],
            [0.18, 0.04, 0.09, 0.08, 0.13, 0.14, 0.11, 0.12, 0.11],
            [
                .. timing.Eyes.Select(eye =>
                    (string[])
                        [
                            Name(eye),
                            Amounts.Degrees(eye.Count),
                            Amounts.Fixed(eye.Mean, 1),
                            eye.Jitter is { } jitter ? Amounts.Fixed(jitter, 1) : text["Unknown"],
                            text.Get("FromTo", eye.Shortest, eye.Longest),
                            Allowed(eye),
                            text.Of("Verdict", eye.Verdict),
                            eye.GapMean is { } gap ? Amounts.Fixed(gap, 1) : text["None"],
                            text.Of("Verdict", eye.GapVerdict),
                        ]
                ),
            ]
        )
        {
            IsSmall = true,
            StaysWhole = true,
            NumberColumns = [1, 2, 3, 4, 5, 7],
        };
    }

    private static string Allowed(CertifiedEyeTiming eye) =>
        eye is { Least: { } least, Most: { } most }
            ? CertificateTerms.Text.Get("FromTo", Whole(least), Whole(most))
            : CertificateTerms.Text["Timing.NotAsked"];

    private static string Whole(double milliseconds) => milliseconds.ToString("0.#", CultureInfo.InvariantCulture);

    private static ReportTable AsymmetriesTable(CertifiedTiming timing)
    {
        var text = CertificateTerms.Text;
        return new(
            text["Asymmetry.Caption"],
            [text["Head.Block"], text["Head.Asymmetry"], text["Head.AsymmetryStands"]],
            [0.25, 0.3, 0.45],
            [
                .. timing.Asymmetries.Select(one =>
                    (string[])
                        [
                            text.Of("Block", one.Block),
                            text.Get(
                                "PlusMinus",
                                Amounts.Signed(one.Milliseconds, 1),
                                Amounts.Uncertainty(one.Expanded)
                            ),
                            text[Math.Abs(one.Milliseconds) > one.Expanded ? "Asymmetry.Beyond" : "Asymmetry.Within"],
                        ]
                ),
            ]
        )
        {
            IsSmall = true,
            StaysWhole = true,
            NumberColumns = [1],
        };
    }
}
