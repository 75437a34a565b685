namespace PupilBridge.Exchange.Research;

/// <summary>
/// Counts how many subjects share what others may know of them (k-anonymity; Sweeney 2002, "k-anonymity: a model for protecting privacy",
/// from memory). What others may know here: the age band, the year of the shifted day, and whether anything was said of the state of an
/// eye. A subject with visits in several classes counts in each.
/// </summary>
/// <remarks>Holds one short name for each subject and class, not their exams. Not for several threads.</remarks>
public sealed class AnonymityCount
{
    private readonly Dictionary<AnonymityClass, HashSet<string>> classes = [];
    private readonly HashSet<string> subjects = new(StringComparer.Ordinal);

    /// <summary>Exams counted.</summary>
    public long Exams { get; private set; }

    /// <summary>Different subjects counted.</summary>
    public int Subjects => subjects.Count;

    /// <summary>The classes with their subjects, the smallest first.</summary>
    public IReadOnlyList<AnonymitySize> Classes =>
        [
            .. classes
                .Select(one => new AnonymitySize(one.Key, one.Value.Count))
                .OrderBy(one => one.Subjects)
                .ThenBy(one => one.Class.AgeBand, StringComparer.Ordinal)
                .ThenBy(one => one.Class.Year)
                .ThenBy(one => one.Class.HasEyeStatus),
        ];

    /// <summary>The k of the export: the fewest subjects of any class; 0 where nothing is exported.</summary>
    public int Smallest => classes.Count == 0 ? 0 : classes.Values.Min(one => one.Count);

    /// <summary>Counts an exam.</summary>
    /// <param name="exam">The exam.</param>
    public void Add(ResearchExam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        Exams++;
        subjects.Add(exam.Subject);
        var key = new AnonymityClass(exam.AgeBand, exam.Day.Year, exam.HasEyeStatus);
        if (!classes.TryGetValue(key, out var members))
        {
            classes[key] = members = new HashSet<string>(StringComparer.Ordinal);
        }

        members.Add(exam.Subject);
    }
}

/// <summary>What others may know of a subject.</summary>
/// <param name="AgeBand">The age band; null if the age is not known.</param>
/// <param name="Year">The year of the shifted day.</param>
/// <param name="HasEyeStatus">Whether anything was said of the state of an eye.</param>
public sealed record AnonymityClass(string? AgeBand, int Year, bool HasEyeStatus);

/// <summary>One class and how many subjects are in it.</summary>
/// <param name="Class">The class.</param>
/// <param name="Subjects">How many subjects.</param>
public sealed record AnonymitySize(AnonymityClass Class, int Subjects);
