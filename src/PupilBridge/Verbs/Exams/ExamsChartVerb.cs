using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams chart</c>: the chart text of one exam.</summary>
internal sealed class ExamsChartVerb : Verb
{
    private readonly Argument<long> exam = new("exam") { Description = "The exam's number." };
    private readonly Option<bool> line = new("--line") { Description = "The same as --length line." };

    private readonly Option<string> length = new("--length")
    {
        Description = "In one line, as a block, or full with findings, cautions and timing.",
        DefaultValueFactory = _ => "block",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public ExamsChartVerb()
        : base("chart", "Prints the chart text of one exam, right above left.")
    {
        length.AcceptOnlyFromAmong("line", "block", "full");
        Add(exam);
        Add(length);
        Add(line);
        Add(json);
        Example("pupilbridge exams chart 42", "the chart text of exam 42");
        Example("pupilbridge exams chart 42 --line", "the same in one line, to paste");
        Example("pupilbridge exams chart 42 --length full", "with findings, cautions and timing");
        EndsWith(DeskAccess.Exits);
        Does(PrintAsync);
    }

    private async Task<ExitCode> PrintAsync(Call call, CancellationToken cancel)
    {
        var number = call.Get(exam);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var chart =
                await access.AskAsync(desk => desk.ChartAsync(number, cancel)).ConfigureAwait(false)
                ?? throw ExamsShowVerb.NoSuchExam(number);
            if (call.Get(json))
            {
                call.PrintJson(chart);
            }
            else
            {
                Print(call, chart);
            }
        }

        return ExitCode.Done;
    }

    private void Print(Call call, ChartView chart)
    {
        var wanted = call.Get(line) ? "line" : call.Get(length);
        call.Print(
            wanted switch
            {
                "line" => chart.Line,
                "full" => chart.Full,
                _ => chart.Block,
            }
        );
        if (wanted == "block")
        {
            FindingText.PrintShort(call, chart.Findings ?? []);
        }
    }
}
