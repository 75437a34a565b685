namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How signatures and amendments are written.</summary>
internal static class SigningFormats
{
    public static EntryFormat[] All => [Signed, Amending];

    private static ProtectedFormat<ExamSigned> Signed =>
        new(
            EntryKind.ExamSigned,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.Version);
                w.Optional(e.MadeUpTo, static (w, sequence) => w.Signed(sequence.Value));
            },
            static e => e.Record is null,
            static (w, e) =>
            {
                w.Text(e.Record!);
                w.OptionalText(e.Reason);
            },
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    Version = p.Open.Int32(),
                    MadeUpTo = p.Open.Optional(static (ref r) => new JournalSequence(r.Signed())),
                    Record = p.Erased ? null : p.Protected.Text(),
                    Reason = p.Erased ? null : p.Protected.OptionalText(),
                };
            }
        );

    private static ProtectedFormat<AmendmentBegun> Amending =>
        new(
            EntryKind.AmendmentBegun,
            1,
            static (w, e) =>
            {
                w.Exam(e);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );
}
