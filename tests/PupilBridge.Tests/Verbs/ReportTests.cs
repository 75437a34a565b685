using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>exams report</c> and <c>patients history</c> on a data folder without a service.</summary>
public sealed class ReportTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task The_plain_text_bears_the_head_by_which_the_journal_can_be_verified()
    {
        var exam = await OpenExam();
        var report = await Run("exams", "report", exam);
        Assert.Equal(ExitCode.Done, report.Code);
        Assert.Contains("Patient: Q-1001", report.Out, StringComparison.Ordinal);
        Assert.Contains("!! NOT COMPLETE:", report.Out, StringComparison.Ordinal);
        var head = report.Lines.Single(line => line.StartsWith("Journal head:", StringComparison.Ordinal)).Split(' ')[
            ^1
        ];
        Assert.Equal(ExitCode.Done, (await Run("journal", "verify", "--head", head)).Code);
        var forged = $"{head.Split(':')[0]}:{new string('a', 64)}";
        Assert.Equal(ExitCode.Damaged, (await Run("journal", "verify", "--head", forged)).Code);
    }

    [Fact]
    public async Task A_file_is_written_whole_and_never_over_another_one_unless_told()
    {
        var exam = await OpenExam();
        var path = folder.At("exam.pdf");
        string[] words = ["exams", "report", exam, "--format", "pdf", "--paper", "a5", "--output", path];
        Assert.Equal(ExitCode.Done, (await Run(words)).Code);
        var first = await File.ReadAllBytesAsync(path);
        Assert.True(first.AsSpan().StartsWith("%PDF-"u8));
        var again = await Run(words);
        Assert.Equal(ExitCode.Refused, again.Code);
        Assert.Contains("--force", again.Error, StringComparison.Ordinal);
        Assert.Equal(first, await File.ReadAllBytesAsync(path));
        Assert.Equal(ExitCode.Done, (await Run([.. words, "--force"])).Code);
        Assert.False(File.Exists(path + ".part"));
    }

    [Fact]
    public async Task What_cannot_be_written_says_why()
    {
        var exam = await OpenExam();
        Assert.Equal(ExitCode.NotFound, (await Run("exams", "report", "77")).Code);
        Assert.Equal(ExitCode.NotFound, (await Run("exams", "report", exam, "--version", "3")).Code);
        Assert.Equal(ExitCode.Usage, (await Run("exams", "report", exam, "--format", "pdf")).Code);
        var nowhere = Path.Combine(folder.Path, "no", "such", "x.html");
        Assert.Equal(ExitCode.Storage, (await Run("exams", "report", exam, "--format", "html", "-o", nowhere)).Code);
        Assert.Equal(ExitCode.NotFound, (await Run("patients", "history", "Q-9999")).Code);
        Assert.Equal(ExitCode.Usage, (await Run("patients", "history", "Q-1001", "--plot", "x.gif")).Code);
    }

    [Fact]
    public async Task The_history_lists_the_visit_in_every_format_and_draws_it()
    {
        var exam = await OpenExam();
        var table = await Run("patients", "history", "Q-1001", "--plot", folder.At("sizes.png"));
        Assert.Equal(ExitCode.Done, table.Code);
        Assert.Contains(table.Lines, line => line.StartsWith(exam, StringComparison.Ordinal));
        Assert.Contains("not examined", table.Out, StringComparison.Ordinal);
        Assert.True((await File.ReadAllBytesAsync(folder.At("sizes.png"))).AsSpan(1).StartsWith("PNG"u8));
        var csv = await Run("patients", "history", "Q-1001", "--format", "csv");
        Assert.StartsWith($"Q-1001,{exam},", csv.Out.Split("\r\n")[1], StringComparison.Ordinal);
        var json = await Run("patients", "history", "Q-1001", "--format", "json");
        using var document = System.Text.Json.JsonDocument.Parse(json.Out);
        Assert.Equal(1, document.RootElement.GetProperty("visits").GetArrayLength());
    }

    [Fact]
    public async Task The_chart_comes_in_three_lengths()
    {
        var exam = await OpenExam();
        var line = await Run("exams", "chart", exam, "--length", "line");
        Assert.Single(line.Lines);
        Assert.Equal(line.Out, (await Run("exams", "chart", exam, "--line")).Out);
        var full = await Run("exams", "chart", exam, "--length", "full");
        Assert.Contains("Timing: no stimulus.", full.Lines);
        Assert.Contains("of them that it was not examined", full.Out, StringComparison.Ordinal);
    }

    /// <summary>What is worse in one eye stands at the end of a chart line; its letters alone could look like health.</summary>
    [Fact]
    public async Task The_list_shows_the_chart_line_whole()
    {
        var exam = await OpenExam();
        var line = (await Run("exams", "chart", exam, "--length", "line")).Lines.Single();
        Assert.Contains(" Swinging: ", line, StringComparison.Ordinal);
        Assert.Contains(line, (await Run("exams", "list")).Out, StringComparison.Ordinal);
    }

    private async Task<string> OpenExam()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var opened = await Run("exam", "open", "--patient", "Q-1001", "--instrument", "QA-7", "--who", "MK");
        Assert.Equal(ExitCode.Done, opened.Code);
        var list = await Run("exams", "list", "--json");
        using var document = System.Text.Json.JsonDocument.Parse(list.Out);
        return document.RootElement.GetProperty("exams")[0].GetProperty("exam").GetRawText();
    }

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", folder.Path]);
}
