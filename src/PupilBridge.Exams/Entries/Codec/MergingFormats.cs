namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How the merging of two patients, and its taking back, are written.</summary>
internal static class MergingFormats
{
    public static EntryFormat[] All => [Merged, Parted];

    private static ProtectedFormat<PatientsMerged> Merged =>
        new(
            EntryKind.PatientsMerged,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Text(e.Kept.Value);
                w.Text(e.Merged.Value);
                w.Flag(e.IsDespiteBirthDates);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Kept = new(p.Open.Text()),
                    Merged = new(p.Open.Text()),
                    IsDespiteBirthDates = p.Open.Flag(),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<PatientsParted> Parted =>
        new(
            EntryKind.PatientsParted,
            2,
            static (w, e) =>
            {
                w.Person(e);
                w.Fixed128(e.Merging.Value);
                w.OptionalText(e.Kept?.Value);
                w.OptionalText(e.Merged?.Value);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Merging = new(p.Open.Fixed128()),
                    // Version 1 did not say which numbers it was about.
                    Kept = p.Version == 1 ? null : p.Open.Optional(static (ref r) => new PatientId(r.Text())),
                    Merged = p.Version == 1 ? null : p.Open.Optional(static (ref r) => new PatientId(r.Text())),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );
}
