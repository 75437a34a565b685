using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Entries;
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
            : throw new EntryProblemException($"'{text}' is no id of an entry: an id has 32 hexadecimal digits.");

    /// <summary>Initials or a sign-in name.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static PersonId Person(string? text) =>
        ShortText.IsValid(text)
            ? new PersonId(text!)
            : throw new EntryProblemException(Short("Initials or a sign-in name", text));

    /// <summary>A patient's number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static PatientId Patient(string? text) =>
        ShortText.IsValid(text)
            ? new PatientId(text!)
            : throw new EntryProblemException(Short("A patient's number", text));

    /// <summary>An instrument's serial number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static SerialNumber Serial(string? text) =>
        SerialNumber.IsValid(text)
            ? new SerialNumber(text!)
            : throw new EntryProblemException(
                $"'{text}' is no serial number: it has 1 to {SerialNumber.MaxLength} characters out of A-Z, a-z, 0-9, '-', '.' "
                    + "and '_'. See 'pupilbridge watch' for the instruments that are connected."
            );

    /// <summary>An exam's number.</summary>
    /// <exception cref="EntryProblemException">It is none.</exception>
    public static ExamId Exam(long number) =>
        number > 0 ? new ExamId(number) : throw new EntryProblemException($"{number} is no number of an exam.");

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
            throw new EntryProblemException(
                $"The {what} has {trimmed.Length} characters; at most {most} are possible."
            );
        }

        return trimmed.Any(c => char.IsControl(c) && c != '\n')
            ? throw new EntryProblemException($"The {what} holds control characters; type it as plain text.")
            : trimmed;
    }

    /// <summary>A text that must be there.</summary>
    /// <exception cref="EntryProblemException">It is empty, too long, or holds control characters.</exception>
    public static string Needed(string? text, string what) =>
        Text(text, what) ?? throw new EntryProblemException($"The {what} is missing; give it.");

    /// <summary>What holds of an eye.</summary>
    /// <exception cref="EntryProblemException">A word is none, or contradicts the others.</exception>
    public static EyeConditions Conditions(IReadOnlyList<string>? words)
    {
        if (words is null or { Count: 0 })
        {
            throw new EntryProblemException(
                $"What holds of the eye is missing; give one or more of: {string.Join(", ", ClinicWords.Conditions.All)}."
            );
        }

        var conditions = words.Select(ClinicWords.Conditions.Read).ToList();
        return conditions.Contains(EyeConditions.None) && conditions.Exists(c => c != EyeConditions.None)
            ? throw new EntryProblemException(
                $"'{ClinicWords.Conditions[EyeConditions.None]}' cannot stand beside another eye status; leave one of them out."
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
            : throw new EntryProblemException($"'{text}' judges both eyes: send one entry for each eye.");
    }

    /// <summary>Steps of an exam, each once.</summary>
    /// <exception cref="EntryProblemException">There are none, or a word is none.</exception>
    public static ValueList<ExamStep> Steps(IReadOnlyList<string>? words) =>
        words is null or { Count: 0 }
            ? throw new EntryProblemException(
                $"The steps are missing; give one or more of: {string.Join(", ", ClinicWords.Steps.All)}."
            )
            : [.. words.Select(ClinicWords.Steps.Read).Distinct()];

    private static string Short(string what, string? text) =>
        $"{what} must have 1 to {ShortText.MaxLength} characters, no control characters and no blank at either end; this is "
        + $"'{text}'.";
}
