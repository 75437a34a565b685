using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Bench.WhatIf;

/// <summary>What another calibration would change, in few numbers.</summary>
internal sealed class WhatIfSummary
{
    /// <summary>Less than this is no change on any output, in mm: sizes are written to 0.01 mm.</summary>
    private const double Seen = 0.005;

    /// <summary>How many exams have sizes.</summary>
    public int Exams { get; private set; }

    /// <summary>How many sizes they have.</summary>
    public int Sizes { get; private set; }

    /// <summary>How many of the exams would read otherwise by 0.005 mm or more.</summary>
    public int ExamsThatChange { get; private set; }

    /// <summary>The largest change of a size, in mm, with its sign.</summary>
    public double LargestChangeMillimetres { get; private set; }

    /// <summary>The exam of that size; null where there is none.</summary>
    public long? LargestInExam { get; private set; }

    /// <summary>Which size that is.</summary>
    public string? LargestOf { get; private set; }

    /// <summary>Takes an exam into account.</summary>
    /// <param name="exam">The exam.</param>
    public void Add(WhatIfExam exam)
    {
        Exams++;
        Sizes += exam.Sizes.Count;
        if (exam.Sizes.Any(size => Math.Abs(size.ThenMillimetres - size.NowMillimetres) >= Seen))
        {
            ExamsThatChange++;
        }

        foreach (var size in exam.Sizes)
        {
            var change = size.ThenMillimetres - size.NowMillimetres;
            if (LargestInExam is null || Math.Abs(change) > Math.Abs(LargestChangeMillimetres))
            {
                (LargestChangeMillimetres, LargestInExam, LargestOf) = (change, exam.Exam, $"{size.Eye} {size.Light}");
            }
        }
    }

    /// <summary>Prints it for a person.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="summary">The summary.</param>
    public static void Print(Call call, WhatIfSummary summary)
    {
        if (summary.LargestInExam is not { } exam)
        {
            call.Print("No exam with sizes is among them.");
            return;
        }

        call.Print(
            $"{summary.Exams} exams with {summary.Sizes} sizes; {summary.ExamsThatChange} would read otherwise."
        );
        call.Print(
            $"The largest change: {BenchNumbers.Signed(summary.LargestChangeMillimetres)} mm, {summary.LargestOf} in exam {exam}."
        );
        call.Print("Nothing was changed.");
    }
}
