using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Instrument;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>What a run says of both scales, as text.</summary>
internal static class ScaleText
{
    /// <summary>Prints statement, discs, line and budget of each scale.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="scales">The scales.</param>
    public static void Print(Call call, PerEye<ScaleView> scales)
    {
        Print(call, "OD (right scale)", scales.Right);
        Print(call, "OS (left scale)", scales.Left);
    }

    private static void Print(Call call, string which, ScaleView scale)
    {
        call.Print();
        call.Print($"{which}: {scale.Words}");
        if (scale.Line is { } line)
        {
            call.Print($"  {line}");
        }

        if (scale.Discs.Count > 0)
        {
            var discs = new TextTable(
                "disc",
                "certified mm",
                "readings",
                "mean mm",
                "error mm",
                "U 95 % mm",
                "statement"
            );
            foreach (var disc in scale.Discs)
            {
                discs.Add(
                    disc.Disc,
                    BenchNumbers.Millimetres(disc.DiameterMillimetres),
                    BenchNumbers.Whole(disc.Readings),
                    BenchNumbers.Millimetres(disc.IndicatedMillimetres),
                    BenchNumbers.Signed(disc.ErrorMillimetres),
                    BenchNumbers.Millimetres(disc.ExpandedMillimetres),
                    disc.Statement
                );
            }

            discs.Print(call.Terminal);
        }

        if (scale.Budget.Count > 0)
        {
            var budget = new TextTable("contribution", "type", "u mm", "degrees of freedom");
            foreach (var part in scale.Budget)
            {
                budget.Add(
                    part.Kind,
                    part.Type,
                    part.StandardUncertaintyMillimetres.ToString("0.0000", CultureInfo.InvariantCulture),
                    part.DegreesOfFreedom?.ToString("0.#", CultureInfo.InvariantCulture) ?? "infinite"
                );
            }

            budget.Print(call.Terminal);
        }
    }
}
