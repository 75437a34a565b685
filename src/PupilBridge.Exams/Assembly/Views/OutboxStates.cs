using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>How far a signed version is on its way to another system.</summary>
public enum OutboxState
{
    /// <summary>It is to be sent.</summary>
    Waiting = 1,

    /// <summary>A try began and nobody knows how it ended; it goes on.</summary>
    Begun = 2,

    /// <summary>An answer came that cannot be believed; it goes on by asking.</summary>
    Doubtful = 3,

    /// <summary>The exam was set aside after it went out: the other system is to be told.</summary>
    ToWithdraw = 4,

    /// <summary>Refused: it rests until a person decides.</summary>
    Refused = 5,

    /// <summary>The other system has it more than once: it rests until a person decides.</summary>
    Doubled = 6,

    /// <summary>The other system has it.</summary>
    Sent = 7,

    /// <summary>The other system was told that it is not valid any more.</summary>
    Withdrawn = 8,

    /// <summary>A person decided that it is not sent.</summary>
    Withheld = 9,

    /// <summary>There is nothing to send: the exam was set aside before, or the record was erased.</summary>
    NotToSend = 10,
}

/// <summary>The outbox as it follows from an exam's facts: one state for each signed version.</summary>
public static class OutboxStates
{
    /// <summary>Whether the service works on it by itself.</summary>
    /// <param name="state">The state.</param>
    public static bool IsOpen(OutboxState state) =>
        state is OutboxState.Waiting or OutboxState.Begun or OutboxState.Doubtful or OutboxState.ToWithdraw;

    /// <summary>Whether it rests until a person decides: a dead letter.</summary>
    /// <param name="state">The state.</param>
    public static bool IsStopped(OutboxState state) => state is OutboxState.Refused or OutboxState.Doubled;

    /// <summary>The steps taken for a version, in order.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="version">The version.</param>
    public static IReadOnlyList<Sending> StepsOf(Exam exam, int version)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return [.. exam.Sendings.Where(step => step.Version == version)];
    }

    /// <summary>Whether anything of a version may have left the house, so that the other system must be asked before it is sent.</summary>
    /// <param name="steps">The steps taken for it.</param>
    public static bool MayBeThere(IReadOnlyList<Sending> steps) =>
        steps.Any(step => !step.IsWithdrawal && IsTrace(step.Outcome));

    /// <summary>How far a version is.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="version">The signed version.</param>
    public static OutboxState Of(Exam exam, SignedVersion version)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(version);
        var state = StateOf(exam, version);
        // Once the patient was erased nothing goes out any more, and there is nothing left to decide: whoever erased was told what had gone.
        return exam.Erasure is not null && (IsOpen(state) || IsStopped(state)) ? OutboxState.NotToSend : state;
    }

    private static OutboxState StateOf(Exam exam, SignedVersion version)
    {
        var steps = StepsOf(exam, version.Version);
        if (exam.Status == ExamStatus.SetAside)
        {
            return MayBeThere(steps)
                ? Last(steps.Where(step => step.IsWithdrawal), OutboxState.ToWithdraw, OutboxState.Withdrawn)
                : OutboxState.NotToSend;
        }

        // Set aside and taken back again: the other system has it as withdrawn, so that it must be looked at anew.
        var state =
            steps.Count > 0 && steps[^1] is { IsWithdrawal: true, Outcome: SendingOutcome.Sent }
                ? OutboxState.Waiting
                : Last(steps.Where(step => !step.IsWithdrawal), OutboxState.Waiting, OutboxState.Sent);
        return version.Record is null && state == OutboxState.Waiting ? OutboxState.NotToSend : state;
    }

    private static OutboxState Last(IEnumerable<Sending> steps, OutboxState first, OutboxState done) =>
        steps.LastOrDefault() switch
        {
            { Decision: SendingDecision.Withheld } => OutboxState.Withheld,
            { Outcome: SendingOutcome.Begun } => first == OutboxState.Waiting ? OutboxState.Begun : first,
            { Outcome: SendingOutcome.Sent } => done,
            { Outcome: SendingOutcome.Refused } => OutboxState.Refused,
            { Outcome: SendingOutcome.Doubtful } => OutboxState.Doubtful,
            { Outcome: SendingOutcome.Doubled } => OutboxState.Doubled,
            _ => first,
        };

    private static bool IsTrace(SendingOutcome? outcome) =>
        outcome is SendingOutcome.Begun or SendingOutcome.Sent or SendingOutcome.Doubtful or SendingOutcome.Doubled;
}
