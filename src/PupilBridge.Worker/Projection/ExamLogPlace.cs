using Microsoft.Extensions.Logging;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <summary>Where the exam log lies and what it is made from.</summary>
/// <param name="DataFolder">The data folder, whose lock the service holds.</param>
/// <param name="Options">How it is kept.</param>
/// <param name="JournalFrom">Reads the journal's entries from a place to the last that is durable now.</param>
/// <param name="Time">The clock for waiting.</param>
/// <param name="Logger">Where the service tells what it does.</param>
internal sealed record ExamLogPlace(
    string DataFolder,
    ExamLogOptions Options,
    Func<long, IEnumerable<SequencedEntry>> JournalFrom,
    TimeProvider Time,
    ILogger Logger
)
{
    /// <summary>
    /// Carries out the erasures that the journal orders, before the journal is read or an exam log is taken into use; tells whether one
    /// lies beyond where the exam log stands. Null where there are none.
    /// </summary>
    public Func<ExamLogStart?, bool>? Settle { get; init; }

    /// <summary>
    /// Whether any patient was ever erased, as far as <see cref="Settle"/> has come: then no older exam log is kept, since nobody can tell
    /// of one that cannot be opened whether it holds what was erased. Null where nobody was.
    /// </summary>
    public Func<bool>? HasErased { get; init; }
}
