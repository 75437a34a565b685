using System.Globalization;

namespace PupilBridge.ExamLog;

/// <summary>
/// The place of an exam in a list: by time of opening, then by id compared character by character. Its text is what a page says to go
/// on from.
/// </summary>
/// <param name="OpenedAtMs">Milliseconds since 1970 in UTC.</param>
/// <param name="Id">The exam's id.</param>
public readonly record struct ExamPlace(long OpenedAtMs, string Id) : IComparable<ExamPlace>
{
    /// <summary>The place of an exam.</summary>
    /// <param name="openedAt">When it opened.</param>
    /// <param name="id">Its id.</param>
    public static ExamPlace Of(DateTimeOffset openedAt, string id) => new(openedAt.ToUnixTimeMilliseconds(), id);

    /// <summary>The place of an exam as it is stored.</summary>
    /// <param name="exam">The exam.</param>
    public static ExamPlace Of(StoredExam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return Of(exam.OpenedAt, exam.Id);
    }

    /// <summary>Reads what <see cref="ToString"/> wrote.</summary>
    /// <exception cref="ArgumentException">It is something else.</exception>
    public static ExamPlace Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var cut = text.IndexOf('~', StringComparison.Ordinal);
        return cut > 0 && long.TryParse(text[..cut], CultureInfo.InvariantCulture, out var openedAtMs)
            ? new ExamPlace(openedAtMs, text[(cut + 1)..])
            : throw new ArgumentException(
                $"'{text}' is no place in a list of exams; leave it out to start with the latest."
            );
    }

    /// <inheritdoc/>
    public int CompareTo(ExamPlace other)
    {
        var byTime = OpenedAtMs.CompareTo(other.OpenedAtMs);
        return byTime != 0 ? byTime : string.CompareOrdinal(Id, other.Id);
    }

    /// <summary>Whether the left place is that of an earlier exam.</summary>
    public static bool operator <(ExamPlace left, ExamPlace right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left place is that of a later exam.</summary>
    public static bool operator >(ExamPlace left, ExamPlace right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left place is that of an earlier exam, or the same.</summary>
    public static bool operator <=(ExamPlace left, ExamPlace right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left place is that of a later exam, or the same.</summary>
    public static bool operator >=(ExamPlace left, ExamPlace right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{OpenedAtMs}~{Id}");
}
