using System.Globalization;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Scripts;

/// <summary>An exam as a few lines of text, for golden files.</summary>
internal static class Summary
{
    public static string Of(Folded folded)
    {
        List<string> lines = [];
        var number = 0;
        foreach (var exam in folded.Exams.Values)
            lines.AddRange([.. Of(exam, ++number), ""]);
        foreach (var orphan in folded.Changes.OfType<EventOrphaned>())
            lines.Add($"orphan: {orphan.Reason}");
        return string.Join('\n', lines).Trim();
    }

    private static IEnumerable<string> Of(Exam exam, int number)
    {
        var closing = exam.Closing is { } closed ? $"closed by {closed.Reason}" : "takes events";
        yield return $"exam {number}: {exam.Patient?.Value ?? "no patient"}, {exam.Status}, {closing}";
        foreach (var signed in exam.SignedVersions)
            yield return $"signed {signed.Version}: {signed.Record}{(signed.Reason is { } why ? $" ({why})" : "")}";
        if (exam.IsBeingAmended)
            yield return $"being amended: {exam.Amendment!.Reason}";
        foreach (var light in new[] { RoomLight.Dim, RoomLight.Bright })
        {
            foreach (var eye in new[] { Eye.Right, Eye.Left })
            {
                if (PupilSizes.Of(exam, eye, light) is { } size)
                    yield return Size(size);
            }
        }

        foreach (var pair in exam.RefusedPairs)
            yield return $"no pair {pair.Eye}: {pair.Reason}";
        foreach (var run in BlockRuns.Of(exam))
            yield return Run(run);
        foreach (var refused in exam.RefusedJudgements)
            yield return $"refused {refused.Judgement.GetType().Name}: {refused.Reason}";
        foreach (var step in ExamSteps.Of(exam))
            yield return $"step {step.Step}: {step.State}";
        var asked = Asked.Of(exam);
        yield return $"asked: {asked.For} {asked.Eye}".Trim();
        foreach (var reminder in Reminders.Of(exam))
            yield return $"reminder: {reminder.Kind} {reminder.Step} {reminder.Eye} {Name(reminder.Block)}".TrimEnd();
        foreach (var reason in BeforeDrops.Of(exam, []))
            yield return Reason(reason);
        foreach (var incident in exam.Incidents)
            yield return $"incident: {incident.Kind} {incident.Detail}".TrimEnd();
        yield return $"chart: {ChartText.OneLine(exam)}";
    }

    private static string Size(PupilSize size)
    {
        var mm = size.Diameter.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);
        var dark = size.Capture.DarkMilliseconds is { } ms ? $", {ms} ms in the dark" : "";
        var kept = size.Superseded > 0 ? $", {size.Superseded} earlier kept" : "";
        var near = size.WithNearFixation ? ", near fixation" : "";
        return $"{size.Light} {size.Eye}: {mm} mm, {size.Capture.Manner}{dark}{kept}{near}";
    }

    private static string Reason(BeforeDropsReason reason)
    {
        var difference = reason.DifferenceMillimetres is { } mm
            ? string.Create(CultureInfo.InvariantCulture, $"{mm:0.00} mm{(reason.IsSure ? "" : " (not surely)")}")
            : "";
        var unclaimed = reason is { Kind: BeforeDropsKind.SwingAsymmetry, IsSure: false } ? "(not claimed)" : "";
        string[] words =
        [
            $"before drops: {reason.Kind}",
            $"{reason.Eye}",
            $"{reason.Grade}",
            $"{reason.Light}",
            difference,
            $"{reason.Step}",
            unclaimed,
        ];
        return string.Join(' ', words.Where(w => w.Length > 0));
    }

    private static string Run(BlockRun run) =>
        $"run {run.Block} {run.Number}: {run.Right} right, {run.Left} left"
        + (run.Block == Block.Direct ? "" : $", {run.Alternations} alternations")
        + (run.HasReachedCount ? ", complete" : ", incomplete")
        + (run.IsTimely ? ", timely" : ", not surely timely")
        + (run.WasInterrupted ? ", interrupted" : "");

    private static string Name(Block block) => block == Block.None ? "" : block.ToString();
}
