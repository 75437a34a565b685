using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Exams;

/// <summary>One exam as text for a terminal: nothing is left out that stands in its JSON.</summary>
internal static class ExamText
{
    /// <summary>Prints an exam.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="exam">The exam.</param>
    public static void Print(Call call, ExamView exam)
    {
        var head = exam.Summary;
        call.Print($"Exam {head.Exam}, {head.Status}, opened {call.LocalTime(head.OpenedAt)}");
        call.Print(
            $"Patient {head.Patient ?? "not said yet"}, instrument {head.Instrument}, examiner {head.Examiner ?? "not said"}"
        );
        if (exam.Erasure is { } erasure)
        {
            call.Print(erasure.Words);
        }

        if (exam.Closing is { } closing)
        {
            call.Print($"Takes no more events since {call.LocalTime(closing.At)}: {closing.Reason}");
        }

        Sizes(call, exam.Sizes);
        Judgements(call, exam.Judgements);
        Stimuli(call, exam.Stimuli);
        EyeStatuses(call, exam.EyeStatuses);
        Lines(
            call,
            "Remarks",
            exam.Notes.Select(note => $"{note.Text ?? "(erased)"} ({note.Who}){Aside(note.Counts)}")
        );
        Lines(
            call,
            "To be known",
            exam.Incidents.Select(i => $"{i.What} {i.Detail}".TrimEnd() + $" (entry {i.Sequence})")
        );
        Lines(call, "Still asked for", exam.AskedFor.Steps.Select(step => step.Words));
        FindingText.Print(call, exam.Findings);
        call.Print();
        call.Print(exam.Chart.Block);
    }

    /// <summary>A diameter with its uncertainty, as every output writes it.</summary>
    /// <param name="size">The size.</param>
    /// <returns>For example <c>4.12 ± 0.21 mm, uncalibrated</c>.</returns>
    public static string Diameter(SizeView size) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{size.Millimetres:0.00} ± {size.UncertaintyMillimetres:0.00} mm{(size.IsCalibrated ? "" : ", uncalibrated")}"
        );

    private static void Sizes(Call call, IReadOnlyList<SizeView> sizes)
    {
        if (sizes.Count == 0)
        {
            return;
        }

        call.Print();
        var table = new TextTable(
            "size of",
            "light",
            "fixation",
            "diameter",
            "nasal µm",
            "temporal µm",
            "dark",
            "entry",
            ""
        );
        foreach (var size in sizes)
        {
            table.Add(
                size.Eye,
                size.Light ?? "not said",
                size.Fixation ?? "not said",
                Diameter(size),
                Number(size.NasalMicrometres) + (size.NasalEdgeAtHome ? " (home)" : ""),
                Number(size.TemporalMicrometres),
                size.DarkSeconds is { } dark ? string.Create(CultureInfo.InvariantCulture, $"{dark:0} s") : "-",
                Number(size.Sequence),
                size.IsSuperseded ? "superseded" : ""
            );
        }

        table.Print(call.Terminal);
    }

    private static void Judgements(Call call, IReadOnlyList<JudgementView> judgements)
    {
        if (judgements.Count == 0)
        {
            return;
        }

        call.Print();
        var table = new TextTable("judged", "by", "at", "entry", "");
        foreach (var judgement in judgements)
        {
            table.Add(
                judgement.Judgement,
                judgement.Who,
                call.LocalTime(judgement.At),
                Number(judgement.Sequence),
                judgement.Counts ? "" : $"does not count: {judgement.WhyNot}"
            );
        }

        table.Print(call.Terminal);
    }

    private static void Stimuli(Call call, IReadOnlyList<StimulusView> stimuli)
    {
        if (stimuli.Count == 0)
        {
            return;
        }

        call.Print();
        var table = new TextTable("stimuli of", "run", "eye", "count", "dwell ms", "timing");
        foreach (var group in stimuli.GroupBy(s => (s.Block, s.Run, s.Eye, s.Timing)))
        {
            var dwells = group
                .Where(s => s.DwellMilliseconds is not null)
                .Select(s => s.DwellMilliseconds!.Value)
                .ToList();
            table.Add(
                group.Key.Block,
                Number(group.Key.Run),
                group.Key.Eye,
                Number(group.Count()),
                dwells.Count == 0 ? "-" : $"{dwells.Min()} to {dwells.Max()}",
                group.Key.Timing
            );
        }

        table.Print(call.Terminal);
    }

    private static void EyeStatuses(Call call, IReadOnlyList<EyeStatusView> statuses) =>
        Lines(
            call,
            "Before the test",
            statuses.Select(s => $"{s.Eye} {string.Join(", ", s.Conditions)} ({s.Who}){Aside(s.Counts)}")
        );

    private static void Lines(Call call, string head, IEnumerable<string> lines)
    {
        var all = lines.ToList();
        if (all.Count == 0)
        {
            return;
        }

        call.Print();
        call.Print($"{head}:");
        all.ForEach(line => call.Print($"  {line}"));
    }

    private static string Aside(bool counts) => counts ? "" : ", does not count";

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
