namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How people's entries that concern no exam yet are written.</summary>
internal static class PersonFormats
{
    public static EntryFormat[] All => [Patient, Opened];

    public static void WriteDetails(EntryWriter writer, PatientEntered entry)
    {
        writer.Text(entry.Details!.Name);
        writer.Optional(entry.Details.BirthDate, static (w, date) => w.Signed(date.DayNumber));
    }

    public static PatientDetails ReadDetails(ref EntryReader reader) =>
        new()
        {
            Name = reader.Text(),
            BirthDate = reader.Optional(static (ref r) => DateOnly.FromDayNumber(r.Int32())),
        };

    private static ProtectedFormat<PatientEntered> Patient =>
        new(
            EntryKind.PatientEntered,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Text(e.Patient.Value);
            },
            static e => e.Details is null,
            WriteDetails,
            static (ref p) =>
            {
                var head = p.Open.Person();
                return new()
                {
                    Id = head.Id,
                    Who = head.Who,
                    At = head.At,
                    ProgramVersion = head.ProgramVersion,
                    Patient = new(p.Open.Text()),
                    Details = p.Erased ? null : ReadDetails(ref p.Protected),
                };
            }
        );

    private static OpenFormat<ExamOpened> Opened =>
        new(
            EntryKind.ExamOpened,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Serial(e.Serial);
                w.OptionalText(e.Patient?.Value);
            },
            static (ref p) =>
            {
                var head = p.Open.Person();
                return new()
                {
                    Id = head.Id,
                    Who = head.Who,
                    At = head.At,
                    ProgramVersion = head.ProgramVersion,
                    Serial = p.Open.Serial(),
                    Patient = p.Open.Optional(static (ref r) => new PatientId(r.Text())),
                };
            }
        );
}
