namespace PupilBridge.Exams.Criteria;

/// <summary>How old a patient was on a day, by the date of birth, as far as that date is possible.</summary>
public static class PatientAge
{
    /// <summary>The highest age that is taken as one, in years. Ours; the oldest person known reached 122.</summary>
    public const int MaxYears = 130;

    /// <summary>Whether someone can have been born on a date.</summary>
    /// <param name="born">The date of birth.</param>
    /// <param name="day">The day on which it is said, in UTC; a clinic's calendar may be a day ahead of it.</param>
    /// <returns>False for a birth in the future, or more than <see cref="MaxYears"/> ago.</returns>
    public static bool IsPossible(DateOnly born, DateOnly day) =>
        born.DayNumber - day.DayNumber <= 1 && Years(born, day) <= MaxYears;

    /// <summary>The age in whole years.</summary>
    /// <param name="born">The date of birth; null if it is not known.</param>
    /// <param name="day">The day, in UTC.</param>
    /// <returns>Null if it is not known, or the date of birth is impossible on that day.</returns>
    public static int? At(DateOnly? born, DateOnly day) =>
        born is { } known && IsPossible(known, day) ? Math.Max(0, Years(known, day)) : null;

    private static int Years(DateOnly born, DateOnly day) =>
        day.Year - born.Year - ((day.Month, day.Day).CompareTo((born.Month, born.Day)) < 0 ? 1 : 0);
}
