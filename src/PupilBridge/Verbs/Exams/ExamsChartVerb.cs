using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams chart</c>: the chart text of one exam.</summary>
internal sealed class ExamsChartVerb : Verb
{
    private readonly Argument<long> exam = new("exam") { Description = "The exam's number." };
    private readonly Option<bool> line = new("--line") { Description = "Print the text in one line." };
    private readonly Option<bool> json = CommonOptions.Json();

    public ExamsChartVerb()
        : base("chart", "Prints the chart text of one exam, right above left.")
    {
        Add(exam);
        Add(line);
        Add(json);
        Example("pupilbridge exams chart 42", "the chart text of exam 42");
        Example("pupilbridge exams chart 42 --line", "the same in one line, to paste");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.InUse, ExitCode.NoService, ExitCode.Storage);
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
                call.Print(call.Get(line) ? chart.Line : chart.Block);
                if (!call.Get(line))
                {
                    FindingText.PrintShort(call, chart.Findings ?? []);
                }
            }
        }

        return ExitCode.Done;
    }
}
