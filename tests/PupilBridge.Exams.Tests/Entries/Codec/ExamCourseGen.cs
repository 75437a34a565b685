using CsCheck;
using PupilBridge.Exams.Entries;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of people about the course of an exam, up to its signature.</summary>
internal static class ExamCourseGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(ExamAttached)] = About(
            Patient,
            Text.Null(),
            (h, p, r) =>
                new ExamAttached
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Patient = p,
                    Reason = r,
                }
        ),
        [typeof(ExamMoved)] = About(
            Patient,
            Text.Null(),
            (h, p, r) =>
                new ExamMoved
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Patient = p,
                    Reason = r,
                }
        ),
        [typeof(ExamSplit)] = About(
            Gen.Long,
            Text.Null(),
            (h, n, r) =>
                new ExamSplit
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    From = new(n),
                    Reason = r,
                }
        ),
        [typeof(EntryWithdrawn)] = About(
            Id,
            Text.Null(),
            (h, i, r) =>
                new EntryWithdrawn
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Withdrawn = i,
                    Reason = r,
                }
        ),
        [typeof(NoteEntered)] = About(
            Text.Null(),
            Gen.Bool,
            (h, t, _) =>
                new NoteEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Text = t,
                }
        ),
        [typeof(NotExaminedAccepted)] = About(
            Steps,
            Gen.Bool,
            (h, s, _) =>
                new NotExaminedAccepted
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Steps = s,
                }
        ),
        [typeof(ExamMadeReady)] = About(
            Gen.Bool,
            Gen.Bool,
            (h, _, _) =>
                new ExamMadeReady
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                }
        ),
        [typeof(ExamSetAside)] = About(
            Text.Null(),
            Gen.Bool,
            (h, r, _) =>
                new ExamSetAside
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Reason = r,
                }
        ),
        [typeof(ExamSigned)] = About(
            Gen.Select(Gen.Int, Gen.Long.Nullable()),
            Gen.Select(Text.Null(), Text.Null()),
            (h, v, t) =>
                new ExamSigned
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Version = v.Item1,
                    MadeUpTo = v.Item2 is { } n ? new JournalSequence(n) : null,
                    Record = t.Item1,
                    // Record and reason are erased together.
                    Reason = t.Item1 is null ? null : t.Item2,
                }
        ),
        [typeof(RecordSent)] = About(
            Gen.Select(Gen.Int, Gen.Bool, Gen.Enum<SendingOutcome>(), Gen.Int.Nullable()),
            Gen.Select(Text, Text.Null(), Text.Null(), Gen.Int),
            (h, v, t) =>
                new RecordSent
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Version = v.Item1,
                    IsWithdrawal = v.Item2,
                    Outcome = v.Item3,
                    AnswerCode = v.Item4,
                    Destination = t.Item1,
                    Location = t.Item2,
                    Reason = t.Item3,
                    Attempt = t.Item4,
                }
        ),
        [typeof(SendingDecided)] = About(
            Text.Null(),
            Gen.Select(Gen.Int, Gen.Enum<SendingDecision>()),
            (h, r, v) =>
                new SendingDecided
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Version = v.Item1,
                    Decision = v.Item2,
                    Reason = r,
                }
        ),
        [typeof(AmendmentBegun)] = About(
            Text.Null(),
            Gen.Bool,
            (h, r, _) =>
                new AmendmentBegun
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Reason = r,
                }
        ),
    };
}
