using PupilBridge.Constructed;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Benchmarks;

/// <summary>What the calibration's speed is measured on.</summary>
public static class CalibrationSample
{
    private static readonly KnownBefore Known = new(new Micrometres(10), 0.001, new CommonOffset(0.002));

    /// <summary>Exams in the words of docs/criteria.md: both lights and eyes, some with a second look or less than everything.</summary>
    private static readonly string[] Kinds =
    [
        "near 3/3; consensual 3/3",
        "bright 4.00/3.20; dim 6.00/5.20",
        "short R; long R; direct 2/3",
        "status drops/none; direct 1/3; near 3/3",
    ];

    /// <summary>Readings of so many discs, each so many times, scattered by a fixed seed: 10 µm, 30 µm off, 0.2 % of the way.</summary>
    public static DiscReading[] Readings(int discs, int repeats)
    {
        var dice = new Random(20_261_127);
        return
        [
            .. Enumerable
                .Range(0, discs)
                .Select(n => new Disc($"d{n + 1}", 2 + (7.0 * n / (discs - 1)), 0.003))
                .SelectMany(disc =>
                    Enumerable
                        .Range(0, repeats)
                        .Select(_ => new DiscReading(
                            disc,
                            Math.Round((disc.DiameterMillimetres * 1.002) + 0.03 + (0.01 * Gaussian(dice)), 2)
                        ))
                ),
        ];
    }

    /// <summary>One scale from its readings to its statement.</summary>
    public static ConformityStatement Fit(DiscReading[] readings)
    {
        var fit = ScaleFit.Of(readings, Known);
        return ScaleDecision.Worst(ScaleDecision.Of(fit, DecisionRule.Default));
    }

    /// <summary>The corrections of both scales by such a fit.</summary>
    public static PerEye<ICorrection> Corrections()
    {
        var line = ScaleFit.Of(Readings(12, 10), Known).Correction;
        return new()
        {
            Right = new CertifiedCorrection(2, Eye.Right, line),
            Left = new CertifiedCorrection(2, Eye.Left, line),
        };
    }

    /// <summary>Exams with readings of their own, as many as asked for.</summary>
    public static Exam[] Exams(int count)
    {
        var kinds = Kinds.Select(done => ConstructedExam.Of(done).Exam).ToArray();
        var dice = new Random(20_261_127);
        return
        [
            .. Enumerable
                .Range(1, count)
                .Select(number =>
                {
                    var kind = kinds[number % kinds.Length];
                    return kind with
                    {
                        Id = new ExamId(number),
                        Captures =
                        [
                            .. kind.Captures.Select(capture =>
                                capture with
                                {
                                    Raw = new(capture.Raw.Value + dice.Next(-300, 300)),
                                }
                            ),
                        ],
                    };
                }),
        ];
    }

    /// <summary>What one exam reads under other corrections: both eyes in both lights, and how they compare.</summary>
    public static double Rederive(Exam exam, PerEye<ICorrection> corrections) =>
        Sum(SizeEquality.Of(exam, RoomLight.Bright, corrections))
        + Sum(SizeEquality.Of(exam, RoomLight.Dim, corrections));

    private static double Sum(SizeEquality sizes) =>
        sizes.Diameters is { } both
            ? both.Right.Millimetres + both.Left.Millimetres + sizes.ExpandedUncertaintyMillimetres!.Value
            : 0;

    private static double Gaussian(Random dice) =>
        Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
