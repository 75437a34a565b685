using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Bench;

/// <summary>Runs, each in one line.</summary>
internal static class RunLines
{
    /// <summary>
    /// The runs of an instrument, the latest first. The exam log may be a moment behind: each run is taken as the journal has it, and the
    /// open one is put in its place.
    /// </summary>
    public static IReadOnlyList<BenchRunLine> List(IClinicHouse house, SerialNumber serial, long? before, int limit)
    {
        var stored = Summaries(house, serial, before, limit);
        return [.. stored.Select(summary => Of(summary, house.FindRun(summary.Run)?.Bench))];
    }

    /// <summary>The runs of an instrument as the journal has them, the latest first.</summary>
    public static IReadOnlyList<BenchRunSummary> Summaries(
        IClinicHouse house,
        SerialNumber serial,
        long? before,
        int limit
    )
    {
        var stored = house.ReadLog(log =>
            BenchDocuments.List(log, serial, before is { } last ? new ExamId(last) : null, limit)
        );
        var open =
            house.Book.OpenRunOf(serial) is { } run && (before is null || run.Id.Value < before)
                ? new[] { BenchRunSummary.Of(run) }
                : [];
        return
        [
            .. open.Concat(stored)
                .DistinctBy(summary => summary.Run)
                .OrderByDescending(summary => summary.Run)
                .Take(limit),
        ];
    }

    public static BenchRunLine Of(Exam sitting) => Of(BenchRunSummary.Of(sitting), sitting.Bench);

    private static BenchRunLine Of(BenchRunSummary summary, BenchRun? run) =>
        new(
            summary.Run.Value,
            summary.Serial.Value,
            BenchWords.Kinds[summary.Kind],
            Shown.Time(summary.Begun),
            summary.Technician.Value,
            summary.IsOpen ? "open"
                : summary.IsFinished ? "finished"
                : run?.Ending is not null ? "given-up"
                : "broken-off",
            summary.Certificate,
            summary.OffsetMillimetres
        );
}
