namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How the steps of a sending are written.</summary>
internal static class SendingFormats
{
    public static EntryFormat[] All => [Sent, Decided];

    private static ProtectedFormat<RecordSent> Sent =>
        new(
            EntryKind.RecordSent,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.Version);
                w.Flag(e.IsWithdrawal);
                w.Text(e.Destination);
                w.Choice(e.Outcome);
                w.Optional(e.AnswerCode, static (w, code) => w.Signed(code));
                w.Signed(e.Attempt);
                w.OptionalText(e.Location);
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
                    Version = p.Open.Int32(),
                    IsWithdrawal = p.Open.Flag(),
                    Destination = p.Open.Text(),
                    Outcome = p.Open.Choice<SendingOutcome>(),
                    AnswerCode = p.Open.Optional(static (ref r) => r.Int32()),
                    Attempt = p.Open.Int32(),
                    Location = p.Open.OptionalText(),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<SendingDecided> Decided =>
        new(
            EntryKind.SendingDecided,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.Version);
                w.Choice(e.Decision);
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
                    Version = p.Open.Int32(),
                    Decision = p.Open.Choice<SendingDecision>(),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );
}
