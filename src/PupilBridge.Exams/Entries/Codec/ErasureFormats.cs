using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How the erasure of a patient is written. It has no protected part: it must be readable for ever.</summary>
internal static class ErasureFormats
{
    public static EntryFormat[] All => [Erased];

    private static OpenFormat<PatientErased> Erased =>
        new(
            EntryKind.PatientErased,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.List(e.Patients, static (w, slot) => w.Unsigned((ulong)slot.Value));
                w.List(e.Texts, static (w, slot) => w.Unsigned((ulong)slot.Value));
                w.List(e.Exams, static (w, exam) => w.Signed(exam.Value));
                w.Count(e.Records);
                w.Text(e.OrderedBy);
                w.Text(e.Reason);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Patients = p.Open.List(static (ref r) => Slot(ref r)),
                    Texts = p.Open.List(static (ref r) => Slot(ref r)),
                    Exams = p.Open.List(static (ref r) => new ExamId(r.Signed())),
                    Records = p.Open.Count(int.MaxValue),
                    OrderedBy = p.Open.Text(),
                    Reason = p.Open.Text(),
                };
            }
        );

    private static KeySlot Slot(ref EntryReader reader) => new(checked((long)reader.Unsigned()));
}
