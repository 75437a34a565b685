using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Keeping;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// Where an exam takes a step. The exam log is written there and not at each event, since an exam's document is whole each
/// time; between two steps the exam is read from the reducer.
/// </summary>
internal static class StepBoundary
{
    /// <summary>Whether an entry ends a step.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="changes">What it changed.</param>
    public static bool Is(JournalEntry entry, IEnumerable<ExamChange> changes) =>
        entry switch
        {
            InstrumentReported reported => EventLine.KindOf(reported.RawLine) is "MODE" or "OFF"
                || changes.Any(OpensOrCloses),
            _ => true,
        };

    private static bool OpensOrCloses(ExamChange change) =>
        change
            is ExamChanged { IsNew: true }
                or ExamChanged { IsOver: true }
                or BenchRunChanged { IsNew: true }
                or BenchRunChanged { IsOver: true };
}
