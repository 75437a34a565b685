using System.CommandLine;
using System.CommandLine.Parsing;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>The options of <c>serve</c> for those who try calibrations: what the scales misread, and discs in place of eyes.</summary>
internal sealed class BenchOptions
{
    public Option<double> OffsetRight { get; } = Offset("right");

    public Option<double> OffsetLeft { get; } = Offset("left");

    public Option<double> GainRight { get; } = Gain("right");

    public Option<double> GainLeft { get; } = Gain("left");

    public Option<bool> Discs { get; } =
        new("--discs")
        {
            Description =
                "Measure discs in place of eyes: reads them from standard input, one a line, such as 'OD 4.002'.",
        };

    public Option<double> Scatter { get; } =
        new("--setting-scatter")
        {
            Description = "Standard deviation of setting one edge of a disc, in mm.",
            HelpName = "MM",
            DefaultValueFactory = _ => 0.01,
        };

    /// <summary>How the scales misread.</summary>
    public PerEye<ScaleError> ErrorsIn(ParseResult parsed) =>
        new()
        {
            Right = new ScaleError(parsed.GetValue(OffsetRight), parsed.GetValue(GainRight)),
            Left = new ScaleError(parsed.GetValue(OffsetLeft), parsed.GetValue(GainLeft)),
        };

    private static Option<double> Offset(string side)
    {
        var option = new Option<double>($"--scale-offset-{side}")
        {
            Description = $"By how much the {side} scale reads too much, in mm; a calibration has to find it.",
            HelpName = "MM",
        };
        option.Validators.Add(Within(option.Name, -1, 1));
        return option;
    }

    private static Option<double> Gain(string side)
    {
        var option = new Option<double>($"--scale-gain-{side}")
        {
            Description = $"By which factor the {side} scale reads distances.",
            HelpName = "X",
            DefaultValueFactory = _ => 1,
        };
        option.Validators.Add(Within(option.Name, 0.5, 2));
        return option;
    }

    private static Action<OptionResult> Within(string name, double least, double most) =>
        result =>
        {
            if (
                !result.Implicit
                && result.GetValueOrDefault<double>() is var value
                && !(value >= least && value <= most)
            )
            {
                result.AddError($"{name} must be between {least} and {most}.");
            }
        };
}
