using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Clinic.Erasing;

/// <summary>What is in the way of erasing a patient, in words for whoever wants to; and what is erased if nothing is.</summary>
internal static class ErasureObstacles
{
    private const int MostNamed = 10_000;
    private const int ShortestNamePart = 3;

    /// <summary>Finds the patient's exams and keys and puts them into the entry.</summary>
    /// <returns>Null if nothing is in the way.</returns>
    /// <exception cref="ExamLog.ExamLogBrokenException">What is known cannot be read now.</exception>
    public static EntryObstacle? Of(IClinicHouse house, ErasePatientEntry given, ref PatientErased entry)
    {
        var number = Given.PatientOrErased(given.Patient);
        if (house.SubjectKeys is not { } keys)
        {
            return Obstacle(ErasureFault.NotSealed, number);
        }

        if (house.Book.Mergings.Of(number) is { } merging)
        {
            return Obstacle(ErasureFault.MergedInto, number, merging.Kept);
        }

        var numbers = house.Book.Mergings.NumbersOf(number);
        var exams = PersonExams.Of(house, number);
        KeySlot[] slots =
        [
            .. numbers.SelectMany(one => SealedNumbers.KeyOf(one) is { } key ? [key] : keys.FindToErase(one)),
        ];
        if (Plain(house, keys.SealedFrom, numbers, exams) is { } plain)
        {
            return Obstacle(ErasureFault.WrittenPlain, number, plain, keys.SealedFrom);
        }

        Exam[] due = [.. exams.Where(exam => exam.Erasure is null || exam.SealedTexts.Items.Any(IsLeft))];
        if (slots.Length == 0 || (SealedNumbers.IsErased(number) && due.Length == 0))
        {
            return Obstacle(ErasureFault.Unknown, number);
        }

        if (exams.FirstOrDefault(exam => exam.TakesEvents) is { } open)
        {
            return Obstacle(ErasureFault.ExamOpen, number, open.Id, open.Serial);
        }

        if (Names(house, number, numbers, $"{entry.Reason} {entry.OrderedBy}") is { } named)
        {
            return Obstacle(ErasureFault.NamesThePatient, number, named);
        }

        KeySlot[] texts =
        [
            .. due.SelectMany(exam => exam.SealedTexts.Items).Select(text => text.Key).Distinct().Order(),
        ];
        if (texts.Length + due.Length > MostNamed)
        {
            return Obstacle(ErasureFault.TooMuch, number, due.Length, texts.Length);
        }

        entry = entry with
        {
            Patients = [.. slots.Distinct().Order()],
            Texts = [.. texts],
            Exams = [.. due.Select(exam => exam.Id)],
            Records = due.Sum(exam => exam.SignedVersions.Count),
        };
        return null;

        // What was entered at the very moment of an erasure.
        bool IsLeft(SealedText text) => keys.Read(text.Key, stackalloc byte[ISubjectKeys.KeyBytes]) == KeyState.Present;
    }

    /// <summary>The first entry about the patient that was written before sealing began; it stays readable whatever is done.</summary>
    private static long? Plain(
        IClinicHouse house,
        long sealedFrom,
        IReadOnlyList<PatientId> numbers,
        IReadOnlyList<Exam> exams
    )
    {
        var ids = exams.Select(exam => exam.Id).ToHashSet();
        return house
            .ReadEntriesBefore(new JournalSequence(sealedFrom))
            .Where(entry =>
                SealingNeeds.Of(entry.Entry) is { IsNone: false } needs
                && (
                    needs.Patients.Any(numbers.Contains) || (entry.Entry is ExamEntry about && ids.Contains(about.Exam))
                )
            )
            .Select(entry => (long?)entry.Sequence.Value)
            .FirstOrDefault();
    }

    /// <summary>The word in a text that says who the patient is; null if none does.</summary>
    private static string? Names(IClinicHouse house, PatientId number, IReadOnlyList<PatientId> numbers, string text)
    {
        var identity = PersonBehind.IdentityOf(house, number);
        var parts = (identity.Name ?? "")
            .Split([' ', ',', '-', '.'], StringSplitOptions.RemoveEmptyEntries)
            .Where(part => part.Length >= ShortestNamePart);
        return numbers
            .Select(one => one.Value)
            .Concat(parts)
            .FirstOrDefault(word => text.Contains(word, StringComparison.OrdinalIgnoreCase));
    }

    private static EntryObstacle Obstacle(ErasureFault fault, params object[] values) =>
        new(ClinicText.Desk.Of("Erase", fault, values), ClinicText.Desk.Of("EraseNext", fault, values));
}
