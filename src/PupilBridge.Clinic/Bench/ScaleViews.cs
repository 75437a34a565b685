using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>What a run says of each scale.</summary>
internal static class ScaleViews
{
    public static PerEye<ScaleView>? Of(Exam sitting) =>
        sitting.Bench?.Kind switch
        {
            BenchRunKind.Calibration => CalibrationOutcome.Of(sitting).Select((_, scale) => Of(scale)),
            BenchRunKind.QuickCheck => QuickCheckOutcome.Of(sitting).Select((_, scale) => Of(scale)),
            _ => null,
        };

    private static ScaleView Of(ScaleOutcome scale)
    {
        if (scale is not { Fit: { } fit, Statement: { } statement })
        {
            return new ScaleView(null, scale.Refusal ?? "", [], null, []);
        }

        var worst = scale.Discs.MaxBy(disc => (disc.Statement, Math.Abs(disc.ErrorMillimetres)))!;
        return new ScaleView(
            CertificateWords.Of(statement),
            ClinicText.Bench.Get(
                "Scale.Worst",
                ClinicText.Bench.Of("Statement", statement),
                Signed(worst.ErrorMillimetres),
                Plain(worst.ExpandedFor95Millimetres),
                worst.Mean.Disc.Name
            ),
            [.. scale.Discs.Select(Of)],
            LineWords(fit),
            BudgetOf(fit)
        );
    }

    private static ScaleDiscView Of(DiscDecision disc) =>
        new(
            disc.Mean.Disc.Name,
            disc.Mean.Disc.DiameterMillimetres,
            disc.Mean.Indicated.Count,
            disc.Mean.Indicated.Mean,
            disc.ErrorMillimetres,
            disc.ExpandedFor95Millimetres,
            CertificateWords.Of(disc.Statement)
        );

    private static string LineWords(ScaleFit fit) =>
        ClinicText.Bench.Get(
            fit.Check.IsBent ? "Scale.BentLine" : "Scale.Line",
            Signed(fit.Correction.Intercept),
            fit.Correction.Slope.ToString("+0.00000;-0.00000;0", CultureInfo.InvariantCulture),
            Plain(fit.Correction.Origin),
            Plain(fit.RepeatabilityMillimetres)
        );

    private static IReadOnlyList<BudgetLine> BudgetOf(ScaleFit fit) =>
        [
            .. fit.Budget(BenchRunSummary.MiddleMillimetres)
                .Contributions.Select(part => new BudgetLine(
                    CertificateWords.Of(part.Kind),
                    part.Type.ToString(),
                    part.StandardUncertaintyMillimetres,
                    double.IsFinite(part.DegreesOfFreedom) ? part.DegreesOfFreedom : null
                )),
        ];

    private static ScaleView Of(QuickCheckScale scale)
    {
        if (scale.ErrorMillimetres is not { } error)
        {
            return new ScaleView(null, ClinicText.Bench["Scale.NoReading"], [], null, []);
        }

        var shown = scale.RemainingMillimetres ?? error;
        if (scale is not { Statement: { } statement, ExpandedMillimetres: { } expanded })
        {
            var alone = ClinicText.Bench.Get("Scale.OneReading", Signed(shown), scale.Disc.Name);
            return new ScaleView(null, alone, [], null, []);
        }

        return new ScaleView(
            CertificateWords.Of(statement),
            ClinicText.Bench.Get(
                scale.RemainingMillimetres is null ? "Scale.Quick" : "Scale.QuickRemaining",
                ClinicText.Bench.Of("Statement", statement),
                Signed(shown),
                Plain(expanded),
                scale.Disc.Name
            ),
            [
                new ScaleDiscView(
                    scale.Disc.Name,
                    scale.Disc.DiameterMillimetres,
                    scale.Readings,
                    scale.Disc.DiameterMillimetres + error,
                    shown,
                    expanded,
                    CertificateWords.Of(statement)
                ),
            ],
            null,
            []
        );
    }

    private static string Signed(double millimetres) =>
        millimetres.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture);

    private static string Plain(double millimetres) => millimetres.ToString("0.000", CultureInfo.InvariantCulture);
}
