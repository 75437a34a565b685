using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Sizes with their uncertainty per eye and light, and what was judged, right beside left.</summary>
internal static class ReadingsPart
{
    private static readonly string[] Eyes = ["right", "left"];

    public static ReportSection Of(SignedRecord record, ReportSetting setting)
    {
        var text = ReportWords.Text;
        List<IReadOnlyList<string>> rows =
        [
            SizeRow(record, "dim", setting),
            SizeRow(record, "bright", setting),
            JudgedRow(record, "shape"),
            JudgedRow(record, "direct"),
            JudgedRow(record, "consensual"),
            JudgedRow(record, "near"),
            JudgedRow(record, "slow-to-dilate"),
        ];
        rows.RemoveAll(row => row.Count == 0);
        var swinging = Swinging(record);
        List<ReportPart> parts =
        [
            new ReportTable(
                text["Readings.Caption"],
                [text["Readings.What"], text["Eye.right"], text["Eye.left"], text["Readings.Beside"]],
                [0.155, 0.15, 0.15, 0.545],
                rows
            ),
            // The chart line as it was signed says it as well, but for records of the first format.
            .. record.Chart.Line.Contains(swinging, StringComparison.Ordinal)
                ? (ReportPart[])[]
                : [new ReportText(swinging)],
            new ReportText(text.Get("Chart", record.Chart.Line)),
        ];
        if (Kept(record, setting) is { Length: > 0 } kept)
            parts.Add(new ReportText(text.Get("Readings.Kept", kept)));
        return new(text["Section.Readings"], parts);
    }

    private static string[] SizeRow(SignedRecord record, string light, ReportSetting setting)
    {
        var sizes = Eyes.Select(eye => record.Sizes.FirstOrDefault(s => s.Eye == eye && s.Light == light && s.Counts))
            .ToArray();
        var beside = sizes
            .Zip(Eyes)
            .Where(pair => pair.First is not null)
            .Select(pair => $"{ReportWords.Of("Short", pair.Second)}: {Beside(pair.First!, setting)}");
        return
        [
            ReportWords.Text[$"Size.{light}"],
            .. sizes.Select(size => size is null ? ReportWords.Text["NotExamined"] : Size(size)),
            string.Join("; ", beside),
        ];
    }

    private static string Size(RecordSize size)
    {
        var value = ReportWords.Text.Get(
            "Size.Value",
            ReportWords.Millimetres(size.DiameterMicrometres),
            ReportWords.Millimetres(size.ExpandedUncertaintyMicrometres)
        );
        if (!size.IsCalibrated)
            value += $" {ReportWords.Text["Size.Uncalibrated"]}";
        return size.IsDoubtful ? $"{value} {ReportWords.Text["Size.Doubtful"]}" : value;
    }

    private static string Beside(RecordSize size, ReportSetting setting)
    {
        List<string> parts = [ReportWords.TimeOfDay(ReportWords.Read(size.Temporal.At), setting.Zone)];
        if (size.DarkMilliseconds is { } dark)
            parts.Add(ReportWords.Text.Get("Size.Dark", dark / 1000));
        parts.Add(
            size.Fixation is null ? ReportWords.Text["Fixation.none"] : ReportWords.Of("Fixation", size.Fixation)
        );
        if (size.Millilux is { } lux)
            parts.Add(ReportWords.Text.Get("Size.Lux", lux / 1000.0));
        return string.Join(", ", parts);
    }

    /// <summary>Consensual responses and slow dilation are optional: where neither eye has one, no row claims that they were due.</summary>
    private static string[] JudgedRow(SignedRecord record, string judged)
    {
        var said = Eyes.Select(eye =>
                record.Judgements.FirstOrDefault(j => j.Judged == judged && j.Eye == eye && j.Counts)
            )
            .ToArray();
        if (judged is "consensual" or "slow-to-dilate" && said.All(j => j is null))
            return [];
        var beside = said.OfType<RecordJudgement>()
            .Select(j => string.Join(", ", new[] { Light(j.Light), Fixation(j.Fixation) }.Where(w => w.Length > 0)))
            .Distinct()
            .Where(w => w.Length > 0);
        return
        [
            ReportWords.Text[$"Judged.{judged}"],
            .. said.Select(j => j is null ? Absent(judged) : Answer(j)),
            string.Join("; ", beside),
        ];
    }

    private static string Absent(string judged) =>
        ReportWords.Text[judged == "slow-to-dilate" ? "Judged.NotSaid" : "NotExamined"];

    private static string Answer(RecordJudgement judgement) =>
        judgement.Judged switch
        {
            "direct" or "near" or "consensual" => judgement.Answer switch
            {
                "?" => ReportWords.Text["CouldNotSee"],
                "0" => "0",
                var grade => $"{grade}+",
            },
            _ => ReportWords.Of("Answer", judgement.Answer),
        };

    private static string Light(string? light) => light is null ? "" : ReportWords.Of("Light", light);

    private static string Fixation(string? fixation) => fixation is null ? "" : ReportWords.Of("Fixation", fixation);

    /// <summary>The swinging test in the words that were signed.</summary>
    private static string Swinging(SignedRecord record) =>
        record.Chart.Block.FirstOrDefault(line => line.StartsWith("Swinging: ", StringComparison.Ordinal))
        ?? ReportWords.Text.Get("Swinging", ReportWords.Of("SwingState", record.Swinging.State));

    /// <summary>Captures that do not count, so that no reading is left out of the paper.</summary>
    private static string Kept(SignedRecord record, ReportSetting setting) =>
        string.Join(
            "; ",
            record
                .Sizes.Where(size => !size.Counts)
                .Select(size =>
                    $"{ReportWords.Of("Short", size.Eye)} {ReportWords.Of("Light", size.Light ?? "none")} "
                    + $"{ReportWords.Millimetres(size.DiameterMicrometres)} mm "
                    + $"({ReportWords.TimeOfDay(ReportWords.Read(size.Temporal.At), setting.Zone)})"
                )
        );
}
