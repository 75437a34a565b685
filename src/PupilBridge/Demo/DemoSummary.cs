using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Exams;

namespace PupilBridge.Demo;

/// <summary>The finished exam on one page: sizes in both lights, grades, swinging results, chart text.</summary>
internal static class DemoSummary
{
    private static readonly string[] Lights = ["bright", "dim"];

    /// <summary>Prints it.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="exam">The exam as it stands in the log.</param>
    public static void Print(Terminal terminal, ExamView exam)
    {
        var table = new TextTable("", "right (OD)", "left (OS)");
        foreach (var light in Lights)
        {
            table.Add($"size, {light}", Size(exam, "OD", light), Size(exam, "OS", light));
        }

        foreach (var kind in (string[])["shape", "direct", "consensual lit", "near"])
        {
            table.Add(
                kind == "consensual lit" ? "consensual, lit" : kind,
                Judged(exam, $"{kind} OD"),
                Judged(exam, $"{kind} OS")
            );
        }

        table.Print(terminal);
        foreach (var swing in exam.Judgements.Where(j => j.Counts && Begins(j, "swing ")))
        {
            // One result for both eyes: below the table, in its first two columns.
            var words = swing.Judgement.Split(' ', 3);
            terminal.Out.WriteLine($"{$"{words[0]} {words[1]}", -16}{words[2]} ({swing.Who})");
        }

        terminal.Out.WriteLine();
        terminal.Out.WriteLine(exam.Chart.Block);
    }

    private static string Size(ExamView exam, string eye, string light) =>
        exam.Sizes.FirstOrDefault(s => !s.IsSuperseded && s.Eye == eye && s.Light == light) is { } size
            ? ExamText.Diameter(size)
            : "not examined";

    private static string Judged(ExamView exam, string of) =>
        exam.Judgements.FirstOrDefault(j => j.Counts && Begins(j, of + " ")) is { } judged
            ? judged.Judgement[(of.Length + 1)..]
            : "not examined";

    private static bool Begins(JudgementView judgement, string with) =>
        judgement.Judgement.StartsWith(with, StringComparison.Ordinal);
}
