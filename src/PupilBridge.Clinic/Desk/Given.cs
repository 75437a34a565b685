using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Desk;

/// <summary>Reads single values that a person gave.</summary>
internal static class Given
{
    /// <summary>The most characters of a remark or a reason.</summary>
    private const int MaxText = 2000;

    /// <summary>An entry's id.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static EntryId Id(string? text) =>
        EntryId.TryParse(text, out var id) && id != default
            ? id
            : throw new EntryProblemException(ClinicText.Desk.Get("Given.NoId", text));

    /// <summary>Initials or a sign-in name.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static PersonId Person(string? text) =>
        ShortText.IsValid(text)
            ? new PersonId(text!)
            : throw new EntryProblemException(ClinicText.Desk.Get("Given.NoPerson", ShortText.MaxLength, text));

    /// <summary>A patient's number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static PatientId Patient(string? text) =>
        SealedNumbers.IsReserved(text)
            ? throw new EntryProblemException(ClinicText.Desk.Get("Given.ReservedPatient", text))
            : PatientOrErased(text);

    /// <summary>A patient's number, or what stands for the number of one who was erased.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static PatientId PatientOrErased(string? text) =>
        ShortText.IsValid(text)
            ? new PatientId(text!)
            : throw new EntryProblemException(ClinicText.Desk.Get("Given.NoPatient", ShortText.MaxLength, text));

    /// <summary>A date of birth that a person can have on the day on which it is entered.</summary>
    /// <exception cref="EntryProblemException">It lies in the future, or too long ago.</exception>
    public static DateOnly? BirthDate(DateOnly? born, DateTimeOffset at) =>
        born is { } known && !PatientAge.IsPossible(known, DateOnly.FromDateTime(at.UtcDateTime))
            ? throw new EntryProblemException(
                ClinicText.Desk.Get(
                    "Given.ImpossibleBirth",
                    known.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
                    PatientAge.MaxYears
                )
            )
            : born;

    /// <summary>An instrument's serial number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static SerialNumber Serial(string? text) =>
        SerialNumber.IsValid(text)
            ? new SerialNumber(text!)
            : throw new EntryProblemException(ClinicText.Desk.Get("Given.NoSerial", text, SerialNumber.MaxLength));

    /// <summary>An exam's number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static ExamId Exam(long number) =>
        number > 0 ? new ExamId(number) : throw new EntryProblemException(ClinicText.Desk.Get("Given.NoExam", number));

    /// <summary>A text that may be absent.</summary>
    /// <exception cref="EntryProblemException">It is too long, or holds control characters.</exception>
    public static string? Text(string? text, string what, int most = MaxText)
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
        {
            return null;
        }

        if (trimmed.Length > most)
        {
            throw new EntryProblemException(ClinicText.Desk.Get("Given.TooLong", what, trimmed.Length, most));
        }

        return trimmed.Any(c => char.IsControl(c) && c != '\n')
            ? throw new EntryProblemException(ClinicText.Desk.Get("Given.Control", what))
            : trimmed;
    }

    /// <summary>A text that must be there.</summary>
    /// <exception cref="EntryProblemException">It is empty, too long, or holds control characters.</exception>
    public static string Needed(string? text, string what) =>
        Text(text, what) ?? throw new EntryProblemException(ClinicText.Desk.Get("Given.Missing", what));

    /// <summary>What holds of an eye.</summary>
    /// <exception cref="EntryProblemException">A word is none, or contradicts the others.</exception>
    public static EyeConditions Conditions(IReadOnlyList<string>? words)
    {
        if (words is null or { Count: 0 })
        {
            throw new EntryProblemException(
                ClinicText.Desk.Get("Given.NoConditions", string.Join(", ", ClinicWords.Conditions.All))
            );
        }

        var conditions = words.Select(ClinicWords.Conditions.Read).ToList();
        return conditions.Contains(EyeConditions.None) && conditions.Exists(c => c != EyeConditions.None)
            ? throw new EntryProblemException(
                ClinicText.Desk.Get("Given.Contradiction", ClinicWords.Conditions[EyeConditions.None])
            )
            : conditions.Aggregate(EyeConditions.None, (all, one) => all | one);
    }

    /// <summary>One judgement of one eye.</summary>
    /// <exception cref="EntryProblemException">It cannot be understood, or judges both eyes.</exception>
    public static Judgement Judgement(string? text)
    {
        var judgements = JudgementSyntax.Read(text ?? "");
        return judgements.Count == 1
            ? judgements[0]
            : throw new EntryProblemException(ClinicText.Desk.Get("Given.BothEyes", text));
    }

    /// <summary>Steps of an exam, each once.</summary>
    /// <exception cref="EntryProblemException">There are none, or a word is none.</exception>
    public static ValueList<ExamStep> Steps(IReadOnlyList<string>? words) =>
        words is null or { Count: 0 }
            ? throw new EntryProblemException(
                ClinicText.Desk.Get("Given.NoSteps", string.Join(", ", ClinicWords.Steps.All))
            )
            : [.. words.Select(ClinicWords.Steps.Read).Distinct()];
}
