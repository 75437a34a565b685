using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration;

namespace PupilBridge.Verbs.Calibration;

/// <summary>Prints a fitted line for a person, every number at full precision.</summary>
internal static class FitText
{
    /// <summary>Prints the line and its values.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="line">The line.</param>
    /// <param name="predictions">Its values where they were asked for.</param>
    /// <param name="columns">The columns that it was fitted to.</param>
    public static void Print(
        Call call,
        CalibrationLine line,
        IReadOnlyList<LinePrediction> predictions,
        ReadingColumns columns
    )
    {
        var fit = line.Fit;
        call.Print($"y = y1 + y2·(x − {Number(fit.Origin)})    x: {columns.XName}    y: {columns.YName}");
        var table = new TextTable("", "value", "standard uncertainty");
        table.Add("y1", Number(fit.Intercept), Number(line.InterceptUncertainty));
        table.Add("y2", Number(fit.Slope), Number(fit.SlopeUncertainty));
        table.Add("correlation of y1 and y2", Number(line.Correlation), "");
        table.Add("s of the residuals", Number(fit.ResidualDeviation), "");
        table.Add("degrees of freedom", Number(fit.DegreesOfFreedom), "");
        table.Add("R squared", double.IsFinite(fit.RSquared) ? Number(fit.RSquared) : "-", "");
        table.Add("readings", Number(fit.Count), "");
        table.Print(call.Terminal);
        if (predictions.Count == 0)
        {
            return;
        }

        call.Print();
        var at = new TextTable("x", "y", "u", "U (k = 2)", "U (95 %)", "k for 95 %", "effective degrees of freedom");
        foreach (var one in predictions)
        {
            at.Add(
                Number(one.X),
                Number(one.Y),
                Number(one.StandardUncertainty),
                Number(one.ExpandedForFactor2),
                Number(one.ExpandedFor95),
                Number(one.FactorFor95),
                double.IsFinite(one.DegreesOfFreedom) ? Number(one.DegreesOfFreedom) : "infinite"
            );
        }

        at.Print(call.Terminal);
    }

    /// <summary>A number at full precision.</summary>
    /// <param name="value">The number.</param>
    /// <returns>With a decimal point.</returns>
    public static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
