using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of people that concern no exam yet: patients, people themselves, the day's list.</summary>
internal static class PersonEntryGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(PatientEntered)] = Gen.Select(Head, Patient, Text, Gen.Int[0, 3_652_058].Nullable(), Gen.Bool)
            .Select(
                (h, p, name, day, erased) =>
                    (JournalEntry)
                        new PatientEntered
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Patient = p,
                            Details = erased
                                ? null
                                : new() { Name = name, BirthDate = day is { } d ? DateOnly.FromDayNumber(d) : null },
                        }
            ),
        [typeof(ExamOpened)] = Gen.Select(Head, Serial, Patient.Nullable())
            .Select(
                (h, s, p) =>
                    (JournalEntry)
                        new ExamOpened
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Serial = s,
                            Patient = p,
                        }
            ),
        [typeof(PatientsMerged)] = Gen.Select(Head, Patient, Patient, Gen.Bool, Text.Null())
            .Select(
                (h, kept, merged, despite, reason) =>
                    (JournalEntry)
                        new PatientsMerged
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Kept = kept,
                            Merged = merged,
                            IsDespiteBirthDates = despite,
                            Reason = reason,
                        }
            ),
        [typeof(PatientsParted)] = Gen.Select(Head, Id, Text.Null(), Patient.Nullable(), Patient.Nullable())
            .Select(
                (h, merging, reason, kept, merged) =>
                    (JournalEntry)
                        new PatientsParted
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Merging = merging,
                            Kept = kept,
                            Merged = merged,
                            Reason = reason,
                        }
            ),
        [typeof(PatientErased)] = Gen.Select(
                Head,
                Gen.Long[0, 1L << 40].Array[0, 4],
                Gen.Long[1, 1L << 40].Array[0, 9],
                Short,
                Text
            )
            .Select(
                (h, keys, exams, ordered, reason) =>
                    (JournalEntry)
                        new PatientErased
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Patients = [.. keys.Select(KeySlot.OfPatient)],
                            Texts = [.. keys.Select(KeySlot.OfText)],
                            Exams = [.. exams.Select(n => new ExamId(n))],
                            Records = exams.Length,
                            OrderedBy = ordered,
                            Reason = reason,
                        }
            ),
        [typeof(PersonChanged)] = About(
            Gen.Select(Short, Short),
            Gen.Select(Gen.Int[0, 15], Gen.Bool),
            (h, names, rights) =>
                new PersonChanged
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Person = new(names.Item1),
                    Roles = (PersonRoles)rights.Item1,
                    IsEnabled = rights.Item2,
                    What = names.Item2,
                }
        ),
        [typeof(PersonSignedIn)] = About(
            Gen.Select(Short, Short),
            Gen.Enum<SignInKind>(),
            (h, names, kind) =>
                new PersonSignedIn
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Person = new(names.Item1),
                    Kind = kind,
                    Where = names.Item2,
                }
        ),
        [typeof(DayListEntered)] = About(
            Gen.Select(Gen.Int[0, 3_652_058], Text),
            Gen.Select(Patient, Gen.Int[0, 1439].Nullable()).Array[0, 6],
            (h, day, items) =>
                new DayListEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Date = DateOnly.FromDayNumber(day.Item1),
                    SourceName = day.Item2,
                    Items = [.. items.Select(i => new DayListItem { Patient = i.Item1, MinuteOfDay = i.Item2 })],
                }
        ),
    };
}
