using System.Globalization;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <summary>One signed version on its way to another system.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="Version">The signed version.</param>
/// <param name="Patient">Whose exam it is now; null if nobody's.</param>
/// <param name="SignedBy">Who signed it.</param>
/// <param name="SignedAt">When it was signed.</param>
/// <param name="Sequence">Where the signature stands in the journal.</param>
/// <param name="State">How far it is.</param>
/// <param name="MayBeThere">Whether anything of it may have left the house.</param>
/// <param name="Attempts">The number of the last try that was journalled; 0 for none.</param>
/// <param name="Last">The last step; null if there was none.</param>
public sealed record OutboxItem(
    ExamId Exam,
    int Version,
    PatientId? Patient,
    PersonId SignedBy,
    UtcTime SignedAt,
    JournalSequence Sequence,
    OutboxState State,
    bool MayBeThere,
    int Attempts,
    Sending? Last
);

/// <summary>From exams to the outbox of the exam log: it follows from the journal alone, so that a rebuild gives the same.</summary>
public static class OutboxDocuments
{
    /// <summary>What is on its way of an exam: one item for each signed version.</summary>
    /// <param name="exam">The exam.</param>
    public static IEnumerable<OutboxItem> ItemsOf(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        foreach (var version in exam.SignedVersions)
        {
            var steps = OutboxStates.StepsOf(exam, version.Version);
            yield return new OutboxItem(
                exam.Id,
                version.Version,
                exam.Patient,
                version.Who,
                version.At,
                version.Sequence,
                OutboxStates.Of(exam, version),
                OutboxStates.MayBeThere(steps),
                steps.Count == 0 ? 0 : steps.Max(step => step.Attempt),
                steps.Count == 0 ? null : steps[^1]
            );
        }
    }

    /// <summary>The same as the exam log stores it.</summary>
    /// <param name="exam">The exam.</param>
    public static IEnumerable<StoredOutboxItem> Of(Exam exam) =>
        ItemsOf(exam)
            .Select(item => new StoredOutboxItem
            {
                Id = string.Create(CultureInfo.InvariantCulture, $"{item.Exam}-{item.Version}"),
                List = ListOf(item.State),
                Sequence = item.Sequence.Value,
                Body = ExamJson.WriteOther(item),
            });

    /// <summary>Reads an item out of the exam log.</summary>
    /// <param name="stored">As it is stored.</param>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    public static OutboxItem Read(StoredOutboxItem stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return ExamJson.ReadOther<OutboxItem>(stored.Body.Span);
    }

    /// <summary>In which list a version stands.</summary>
    /// <param name="state">How far it is.</param>
    public static OutboxList ListOf(OutboxState state) =>
        OutboxStates.IsOpen(state) ? OutboxList.Open
        : OutboxStates.IsStopped(state) ? OutboxList.Stopped
        : OutboxList.Settled;
}
