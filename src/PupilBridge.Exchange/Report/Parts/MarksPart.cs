using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>What must be seen before the readings are: none of it may be missed on paper.</summary>
internal static class MarksPart
{
    public static IEnumerable<ReportMark> Of(OutgoingRecord outgoing)
    {
        var record = outgoing.Record;
        if (outgoing.IsSetAside)
            yield return Mark("SetAside");
        if (outgoing.Signature is null)
            yield return Mark("Draft");
        else if (!outgoing.Signature.IsLatest)
            yield return Mark("Superseded", record.Version);
        if (record.Version > 1)
            yield return Mark("Amended", false, record.Version, record.Version - 1, record.AmendmentReason ?? "");
        if (record.Patient is null)
            yield return Mark("Nobodys");
        if (record.Sizes.Any(size => !size.IsCalibrated))
            yield return Mark("Uncalibrated");
        if (record is { Sizes.Count: > 0, Calibration: { Standing: "expired", Number: { } expired } })
            yield return Mark("CalibrationExpired", expired);
        if (record is { Sizes.Count: > 0, Calibration: { Standing: "failed", Number: { } failed } })
            yield return Mark("CalibrationFailed", failed);
        if (Missing(record) is { Count: > 0 } missing)
            yield return Mark("Incomplete", string.Join("; ", missing));
        if (record.Incidents.Any(i => i.Kind is "events-lost" or "event-unplaced" or "conflict"))
            yield return Mark("Gap");
        if (record.Sizes.Any(size => size.IsDoubtful))
            yield return Mark("Doubtful");
    }

    /// <summary>The steps that were not examined, in words. Only "done" means that a step was examined.</summary>
    public static IReadOnlyList<string> Missing(SignedRecord record) =>
        [
            .. record
                .Steps.Where(step => step.State != "done")
                .Select(step =>
                {
                    var eyes = string.Join(", ", step.Missing.Select(eye => ReportWords.Of("Eye", eye)));
                    var name = ReportWords.Of("Step", step.Step);
                    var state = ReportWords.Of("State", step.State);
                    return eyes.Length == 0 ? $"{name}: {state}" : $"{name} ({eyes}): {state}";
                }),
        ];

    private static ReportMark Mark(string key, params object[] values) => Mark(key, true, values);

    private static ReportMark Mark(string key, bool isWarning, params object[] values) =>
        new(ReportWords.Text[$"Mark.{key}"], ReportWords.Text.Get($"Mark.{key}.Words", values), isWarning);
}
