using System.Text.Json.Serialization;
using PupilBridge.Exams.Calibration;

namespace PupilBridge.Verbs.Calibration;

/// <summary>A fitted line as a program reads it, every number at full precision.</summary>
internal sealed record FitJson(
    [property: JsonPropertyName("y1")] double Y1,
    [property: JsonPropertyName("u_y1")] double UncertaintyOfY1,
    [property: JsonPropertyName("y2")] double Y2,
    [property: JsonPropertyName("u_y2")] double UncertaintyOfY2,
    [property: JsonPropertyName("r")] double Correlation,
    [property: JsonPropertyName("s")] double ResidualDeviation,
    [property: JsonPropertyName("dof")] int DegreesOfFreedom,
    [property: JsonPropertyName("r_squared")] double? RSquared,
    [property: JsonPropertyName("n")] int Count,
    [property: JsonPropertyName("predict")] IReadOnlyList<PredictionJson> Predict
)
{
    /// <summary>Takes over what a line says.</summary>
    /// <param name="line">The line.</param>
    /// <param name="predictions">Its values where they were asked for.</param>
    /// <returns>The document.</returns>
    public static FitJson Of(CalibrationLine line, IReadOnlyList<LinePrediction> predictions) =>
        new(
            line.Fit.Intercept,
            line.InterceptUncertainty,
            line.Fit.Slope,
            line.Fit.SlopeUncertainty,
            line.Correlation,
            line.Fit.ResidualDeviation,
            line.Fit.DegreesOfFreedom,
            // Where y does not vary there is nothing to explain.
            double.IsFinite(line.Fit.RSquared)
                ? line.Fit.RSquared
                : null,
            line.Fit.Count,
            [
                .. predictions.Select(at => new PredictionJson(
                    at.X,
                    at.Y,
                    at.StandardUncertainty,
                    at.ExpandedForFactor2,
                    at.ExpandedFor95
                )),
            ]
        );
}

/// <summary>The line's value at a place as a program reads it.</summary>
internal sealed record PredictionJson(
    [property: JsonPropertyName("x")] double X,
    [property: JsonPropertyName("y")] double Y,
    [property: JsonPropertyName("u")] double StandardUncertainty,
    [property: JsonPropertyName("U_k2")] double ExpandedForFactor2,
    [property: JsonPropertyName("U_95")] double ExpandedFor95
);
