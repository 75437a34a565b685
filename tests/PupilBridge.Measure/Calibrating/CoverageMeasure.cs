using System.Text.Json.Nodes;
using PupilBridge.Cohort.Calibrations;
using PupilBridge.Exams.Calibration;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Calibrating;

/// <summary>
/// Whether the 95 % interval of a corrected diameter holds the true one in 95 % of simulated calibrations, by number of discs and
/// repeats and by what makes it uncertain; and what becomes of that if a contribution is left out where it dominates.
/// </summary>
internal static class CoverageMeasure
{
    private static readonly (string Name, ScaleTruth Truth)[] Truths =
    [
        ("usual", new()),
        (
            "scatter",
            new()
            {
                Repeatability = 0.05,
                Disc = 0.001,
                Common = 0.001,
            }
        ),
        (
            "discs",
            new()
            {
                Repeatability = 0.004,
                Disc = 0.02,
                Common = 0.001,
            }
        ),
        ("common", new() { Repeatability = 0.004, Common = 0.02 }),
        ("bent", new() { Repeatability = 0.004, Straightness = 0.02 }),
        (
            "mixed",
            new()
            {
                Repeatability = 0.01,
                Disc = 0.01,
                Common = 0.01,
                Straightness = 0.01,
            }
        ),
    ];

    private static readonly CalibrationDesign[] Designs =
    [
        .. new[] { 3, 5, 8, 12 }.SelectMany(discs =>
            new[] { 3, 5, 10 }.Select(repeats => new CalibrationDesign(discs, repeats))
        ),
    ];

    public static void Run(FigureFile figures, long seed, int trials)
    {
        System.Console.WriteLine(
            $"{"discs", 5} {"repeats", 7}  {string.Join(' ', Truths.Select(t => $"{t.Name, 8}"))}"
        );
        var coverage = new JsonObject();
        foreach (var design in Designs)
        {
            var percents = Truths
                .Select(t => Math.Round(CoverageRun.Of(seed, design, t.Truth, trials).Percent, 2))
                .ToArray();
            System.Console.WriteLine(
                $"{design.Discs, 5} {design.Repeats, 7}  {string.Join(' ', percents.Select(p => $"{p, 8:0.00}"))}"
            );
            coverage[$"{design.Discs}x{design.Repeats}"] = new JsonObject(
                Truths.Zip(percents, (t, p) => KeyValuePair.Create<string, JsonNode?>(t.Name, p))
            );
        }

        figures.Set("coverage_trials", (long)trials);
        figures.Set("coverage_95", coverage);
        figures.Set("coverage_left_out", LeftOut(seed, trials));
    }

    private static JsonObject LeftOut(long seed, int trials)
    {
        var left = new JsonObject();
        System.Console.WriteLine("where one contribution dominates: with it, and left out");
        foreach (var kind in Enum.GetValues<ContributionKind>())
        {
            var (design, truth) = Dominated.By(kind);
            var found = CoverageRun.Of(seed, design, truth, trials, kind);
            System.Console.WriteLine($"{kind, -18} {found.Percent:0.00} {found.PercentWithout:0.00}");
            left[kind.ToString()] = new JsonObject
            {
                ["with"] = Math.Round(found.Percent, 2),
                ["without"] = Math.Round(found.PercentWithout, 2),
            };
        }

        return left;
    }
}
