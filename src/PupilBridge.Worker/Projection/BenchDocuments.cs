using System.Globalization;
using System.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// Bench runs as the exam log stores them: whole in one list, by their number, and in one line each in another, by instrument. They are no
/// exams of patients, so that no list or export of exams can come upon them.
/// </summary>
public static class BenchDocuments
{
    /// <summary>The look-up list of whole runs, by number.</summary>
    public const string Runs = "bench-runs";

    /// <summary>The look-up list of the runs of each instrument, one line each.</summary>
    public const string Summaries = "bench-summaries";

    /// <summary>A run as the exam log stores it.</summary>
    /// <param name="run">The run.</param>
    /// <returns>Its lines.</returns>
    public static IEnumerable<StoredLookUp> Of(Exam run)
    {
        ArgumentNullException.ThrowIfNull(run);
        yield return new()
        {
            List = Runs,
            Key = NumberOf(run.Id),
            Text = Encoding.UTF8.GetString(ExamJson.Write(run)),
        };
        yield return new()
        {
            List = Summaries,
            Key = BeginningOf(run.Serial) + NumberOf(run.Id),
            Text = Encoding.UTF8.GetString(ExamJson.WriteOther(BenchRunSummary.Of(run))),
        };
    }

    /// <summary>Finds a run.</summary>
    /// <param name="log">The exam log.</param>
    /// <param name="id">Its number.</param>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read.</exception>
    public static Exam? Find(ExamLogStore log, ExamId id)
    {
        ArgumentNullException.ThrowIfNull(log);
        return id.Value > 0 && log.FindLookUp(Runs, NumberOf(id)) is { } found
            ? ExamJson.Read(Encoding.UTF8.GetBytes(found.Text))
            : null;
    }

    /// <summary>Lists the runs of an instrument, the latest first.</summary>
    /// <param name="log">The exam log.</param>
    /// <param name="serial">The instrument.</param>
    /// <param name="before">Only those before this one; null for all.</param>
    /// <param name="limit">The most of them.</param>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read.</exception>
    public static IReadOnlyList<BenchRunSummary> List(ExamLogStore log, SerialNumber serial, ExamId? before, int limit)
    {
        ArgumentNullException.ThrowIfNull(log);
        var beginning = BeginningOf(serial);
        var last = before is { } id ? beginning + NumberOf(id) : null;
        return
        [
            .. log.ListLookUpsBackwards(Summaries, beginning, last, limit)
                .Select(line => ExamJson.ReadOther<BenchRunSummary>(Encoding.UTF8.GetBytes(line.Text))),
        ];
    }

    private static string BeginningOf(SerialNumber serial) => $"{serial.Value}/";

    private static string NumberOf(ExamId id) => id.Value.ToString("D19", CultureInfo.InvariantCulture);
}
