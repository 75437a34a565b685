using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Statistics;
using PupilBridge.Tables;

namespace PupilBridge.Verbs.Calibration;

/// <summary><c>calibration fit</c>: the correction line through the readings of a plain table.</summary>
internal sealed class CalibrationFitVerb : Verb
{
    private readonly Option<string> readings = new("--readings")
    {
        Description = "The table: CSV, column names in the first line, one row for each reading.",
        HelpName = "FILE.csv",
        Required = true,
    };

    private readonly Option<string?> xColumn = new("--x")
    {
        Description = "The column of x. Without it: 'indicated', the diameter that the instrument showed, in mm.",
        HelpName = "COLUMN",
    };

    private readonly Option<string?> yColumn = new("--y")
    {
        Description = "The column of y. Without it: 'correction', or 'certified' minus 'indicated', in mm.",
        HelpName = "COLUMN",
    };

    private readonly Option<double?> origin = NumberOption.One(
        "--origin",
        "X0",
        "Where the line is stated: y = y1 + y2·(x − x0); 0 by default."
    );

    private readonly Option<double[]> predict = NumberOption.Several(
        "--predict",
        "X …",
        "Where to tell the line's value with its uncertainty."
    );

    private readonly Option<double?> commonU = NumberOption.One(
        "--common-u",
        "U",
        "The standard uncertainty of an offset that all y share, as of one set of discs; 0 by default."
    );

    private readonly Option<double?> commonDof = NumberOption.One(
        "--common-dof",
        "NU",
        "The degrees of freedom behind --common-u; without it, it counts as known outright."
    );

    private readonly Option<bool> acceptAlike = new("--accept-alike")
    {
        Description = "Rows that are alike in every column are readings of their own, and not one row twice.",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public CalibrationFitVerb()
        : base(
            "fit",
            "Fits the correction line y = y1 + y2·(x − x0) to the readings of a table, with standard uncertainties and their "
                + "correlation. Needs no instrument and no data folder."
        )
    {
        Add(readings);
        Add(xColumn);
        Add(yColumn);
        Add(origin);
        Add(predict);
        Add(commonU);
        Add(commonDof);
        Add(acceptAlike);
        Add(json);
        Example(
            "pupilbridge calibration fit --readings right-scale.csv --origin 5 --predict 2 5 8 --common-u 0.005",
            "fits the columns 'indicated' and 'correction', and tells the correction at three diameters"
        );
        Example(
            "pupilbridge calibration fit --readings thermometer.csv --x t --y b --origin 20 --predict 30 --json",
            "any two columns, for a program"
        );
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Storage);
        Does((call, _) => Task.FromResult(Fit(call)));
    }

    private ExitCode Fit(Call call)
    {
        var common = Common(call);
        var table = PlainTableReader.Read(call.Get(readings)!);
        var columns = ReadingColumns.Of(table, call.Get(xColumn), call.Get(yColumn));
        ReadingChecks.RefuseWrongUnits(table, columns);
        ReadingChecks.RefuseAlikeRows(table, call.Get(acceptAlike));
        ReadingChecks.RefuseFewDiscs(table, columns);
        try
        {
            var line = new CalibrationLine(LineFit.Of(columns.Points, call.Get(origin) ?? 0), common);
            LinePrediction[] predictions = [.. (call.Get(predict) ?? []).Select(line.Predict)];
            if (call.Get(json))
            {
                call.PrintJson(FitJson.Of(line, predictions));
            }
            else
            {
                FitText.Print(call, line, predictions, columns);
            }

            Remark(call, line, columns, predictions);
        }
        catch (StatisticsRefusedException refusal)
        {
            throw new CommandFailure(ExitCode.Refused, $"{table.Path}: {refusal.Message}", Next(refusal.Fault));
        }

        return ExitCode.Done;
    }

    private CommonOffset Common(Call call)
    {
        var (u, dof) = (call.Get(commonU) ?? 0, call.Get(commonDof));
        if (u < 0)
        {
            throw new CommandFailure(ExitCode.Usage, "--common-u must be 0 or more.", "It is a standard uncertainty.");
        }

        if (dof is <= 0)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--common-dof must be more than 0.",
                "Leave it out if it is not known."
            );
        }

        if (dof is not null && !call.IsGiven(commonU))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--common-dof belongs to --common-u.",
                "Add --common-u, or leave it out."
            );
        }

        return new CommonOffset(u, dof ?? double.PositiveInfinity);
    }

    private static void Remark(Call call, CalibrationLine line, ReadingColumns columns, LinePrediction[] predictions)
    {
        var (least, most) = (columns.Points.Min(point => point.X), columns.Points.Max(point => point.X));
        foreach (var beyond in predictions.Where(at => at.X < least || at.X > most))
        {
            call.Remark(
                $"{FitText.Number(beyond.X)} lies outside the readings ({FitText.Number(least)} to {FitText.Number(most)}): "
                    + "the stated uncertainty takes for granted that the line goes on as it is."
            );
        }

        if (line.Fit.ResidualDeviation == 0)
        {
            call.Remark(
                "The readings meet the line without any residual, so their scatter is hidden below the last digit; "
                    + "an uncertainty of 0 is not to be believed."
            );
        }
    }

    private static string Next(StatisticsFault fault) =>
        fault switch
        {
            StatisticsFault.TooFew or StatisticsFault.TwoPlacesOnly =>
                "Add readings of a third disc, better of five or more.",
            StatisticsFault.NoVariation => "Read discs of different sizes, spread over the range that will be used.",
            _ => "Mend the table and run the command again.",
        };
}
