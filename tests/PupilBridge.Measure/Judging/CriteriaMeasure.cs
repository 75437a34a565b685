using System.Diagnostics;
using System.Text.Json;
using PupilBridge.Cohort;
using PupilBridge.Cohort.Examining;
using PupilBridge.Cohort.Population;
using PupilBridge.Cohort.Results;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Judging;

/// <summary>The criteria against a simulated clinic: counts, sensitivity, specificity, by two seeds.</summary>
internal static class CriteriaMeasure
{
    private const string Document = "docs/criteria.md";

    public static void Run(FigureFile figures, long seed, int people)
    {
        var begin = Stopwatch.GetTimestamp();
        var (first, second) = (
            CohortRun.Of(seed, people, HumanScatter.Usual),
            CohortRun.Of(seed + 1, people, HumanScatter.Usual)
        );
        var criteria = FigureTable.Json(first);
        figures.Set("exams", (long)people);
        figures.Set("seed", seed);
        figures.Set("second_seed", seed + 1);
        figures.Set("criteria", criteria);
        figures.Set("criteria_second_seed", FigureTable.Json(second));
        figures.Set("beyond_chance_between_seeds", FigureTable.Apart(first, second));
        figures.Set("bracket_within_one_step", FigureTable.Json(first.BracketsWithinOneStep));
        figures.Set("bell_grade_right", FigureTable.Json(first.BellGradesRight));
        figures.Set("human_scatter", JsonSerializer.SerializeToNode(HumanScatter.Usual)!);
        figures.Set("prevalences", JsonSerializer.SerializeToNode(new Prevalences())!);
        figures.Set("seconds", Stopwatch.GetElapsedTime(begin).TotalSeconds);
        foreach (var line in FigureTable.Lines(criteria))
            System.Console.WriteLine(line);
        if (File.Exists(Document))
            File.WriteAllText(Document, FigureTable.Into(File.ReadAllText(Document), criteria));
    }
}
