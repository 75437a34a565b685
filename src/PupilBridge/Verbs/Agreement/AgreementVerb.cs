using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;
using PupilBridge.Tables;

namespace PupilBridge.Verbs.Agreement;

/// <summary><c>agreement</c>: how far readings, repeats, examiners or raters agree, from a plain table.</summary>
internal sealed class AgreementVerb : Verb
{
    private readonly Option<string> pairs = new("--pairs")
    {
        Description = "The table: CSV, column names in the first line, one row for each subject.",
        HelpName = "FILE.csv",
        Required = true,
    };

    private readonly Option<string?> a = new("--a")
    {
        Description = "The column of the first readings.",
        HelpName = "COLUMN",
    };

    private readonly Option<string?> b = new("--b")
    {
        Description = "The column of the second readings.",
        HelpName = "COLUMN",
    };

    private readonly Option<bool> repeats = new("--repeats")
    {
        Description = "Both columns are readings of the same subject in the same way: repeatability.",
    };

    private readonly Option<bool> grades = new("--grades")
    {
        Description = "The columns hold two examiners' grades: kappa.",
    };

    private readonly Option<string> weights = new("--weights")
    {
        Description = "How the distance between grades counts in the weighted kappa.",
        DefaultValueFactory = _ => "linear",
    };

    private readonly Option<string[]> ratings = new("--ratings")
    {
        Description = "Several raters: the six intraclass correlations. Without names, of all columns of numbers.",
        HelpName = "COLUMN …",
        Arity = ArgumentArity.ZeroOrMore,
        AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<double?> factor = NumberOption.One(
        "--factor",
        "F",
        "How many standard deviations hold 95 %: 1.96 by default; 2 as in the paper of 1986."
    );

    private readonly Option<bool> json = CommonOptions.Json();

    public AgreementVerb()
        : base(
            "agreement",
            "Tells how far two ways to measure agree (bias and limits of agreement), or repeats, examiners' grades, several "
                + "raters. Needs no instrument and no data folder."
        )
    {
        weights.AcceptOnlyFromAmong("linear", "quadratic");
        Add(pairs);
        Add(a);
        Add(b);
        Add(repeats);
        Add(grades);
        Add(weights);
        Add(ratings);
        Add(factor);
        Add(json);
        Example(
            "pupilbridge agreement --pairs sizes.csv --a lane1 --b lane2",
            "bias and limits of agreement of two lanes"
        );
        Example(
            "pupilbridge agreement --pairs sizes.csv --a first --b second --repeats",
            "repeatability from two readings each"
        );
        Example(
            "pupilbridge agreement --pairs grades.csv --a MK --b AB --grades --weights quadratic",
            "kappa of two examiners' grades"
        );
        Example("pupilbridge agreement --pairs ratings.csv --ratings MK AB JS --json", "three raters, for a program");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Storage);
        Does((call, _) => Task.FromResult(Compute(call)));
    }

    private ExitCode Compute(Call call)
    {
        CheckKinds(call);
        var path = call.Get(pairs)!;
        try
        {
            var table = PlainTableReader.Read(path);
            if (call.IsGiven(ratings))
            {
                RatingsAnswer.Print(call, table, call.Get(ratings) ?? [], call.Get(json));
            }
            else
            {
                Compare(call, table);
            }
        }
        catch (StatisticsRefusedException refusal)
        {
            throw new CommandFailure(ExitCode.Refused, $"{path}: {refusal.Message}", Next(refusal.Fault));
        }

        return ExitCode.Done;
    }

    private void Compare(Call call, PlainTable table)
    {
        var (first, second) = (table.PlaceOf(Column(call, a)), table.PlaceOf(Column(call, b)));
        if (first == second)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                $"--a and --b name the same column, '{table.Headings[first]}'.",
                "Name two columns; a column always agrees with itself."
            );
        }

        var read = PairedReadings.Of(table.Numbers(first), table.Numbers(second));
        var many = call.Get(factor) ?? LimitsOfAgreement.UsualFactor;
        if (call.Get(grades))
        {
            GradesAnswer.Print(call, read, call.Get(weights)!, call.Get(json));
        }
        else if (call.Get(repeats))
        {
            PairsAnswer.PrintRepeats(call, Repeatability.Of(read, many), call.Get(json));
        }
        else
        {
            PairsAnswer.PrintLimits(call, LimitsOfAgreement.Of(read, many), call.Get(json));
        }
    }

    private void CheckKinds(Call call)
    {
        string[] kinds = [.. ((Option[])[repeats, grades, ratings]).Where(call.IsGiven).Select(option => option.Name)];
        if (kinds.Length > 1)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                $"{string.Join(" and ", kinds)} ask for different things.",
                "Give one."
            );
        }

        if (call.IsGiven(weights) && !call.Get(grades))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--weights belongs to --grades.",
                "Add --grades, or leave it out."
            );
        }

        if (call.IsGiven(factor) && (call.Get(grades) || call.IsGiven(ratings)))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--factor belongs to limits of agreement and to --repeats.",
                "Leave it out."
            );
        }

        if (call.Get(factor) is <= 0)
        {
            throw new CommandFailure(ExitCode.Usage, "--factor must be more than 0.", "The usual factor is 1.96.");
        }
    }

    private static string Column(Call call, Option<string?> option) =>
        call.Get(option)
        ?? throw new CommandFailure(
            ExitCode.Usage,
            $"{option.Name} is missing: which column holds the {(option.Name == "--a" ? "first" : "second")} readings?",
            $"Add {option.Name} COLUMN; the columns' names stand in the first line of the table."
        );

    private static string Next(StatisticsFault fault) =>
        fault switch
        {
            StatisticsFault.TooFew => "Add the readings of more subjects.",
            StatisticsFault.TooFewRaters => "Name the raters' columns after --ratings.",
            StatisticsFault.NoVariation =>
                "Check that the right columns were named and that the table holds what was read.",
            _ => "Mend the table and run the command again.",
        };
}
