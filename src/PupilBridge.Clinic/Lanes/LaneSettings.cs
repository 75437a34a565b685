using System.Collections.Frozen;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Clinic.Lanes;

/// <summary>What a clinic wants to be reminded of at its lanes, and after how long.</summary>
public sealed record LaneSettings
{
    private static readonly FrozenDictionary<string, ReminderKind> Kinds = Enum.GetValues<ReminderKind>()
        .ToFrozenDictionary(Shown.Word, StringComparer.OrdinalIgnoreCase);

    /// <summary>All reminders, after the times that ship with the program.</summary>
    public static LaneSettings Default { get; } = new();

    /// <summary>The kinds of reminders that are not shown.</summary>
    public IReadOnlySet<ReminderKind> Quiet { get; init; } = FrozenSet<ReminderKind>.Empty;

    /// <summary>After how long an instrument or a fixation counts as left behind.</summary>
    public LaneReminderRules Rules { get; init; } = LaneReminderRules.Default;

    /// <summary>The words by which kinds of reminders are named, such as <c>instrument-left-on</c>.</summary>
    public static IReadOnlyList<string> Words { get; } = [.. Kinds.Keys.Order(StringComparer.Ordinal)];

    /// <summary>Reads the kinds that are not to be shown.</summary>
    /// <param name="words">Words of <see cref="Words"/>; capitals do not matter.</param>
    /// <returns>The kinds.</returns>
    /// <exception cref="EntryProblemException">A word is none of them; the message lists what is.</exception>
    public static IReadOnlySet<ReminderKind> ReadQuiet(IEnumerable<string> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Select(Read).ToFrozenSet();
    }

    private static ReminderKind Read(string word) =>
        Kinds.TryGetValue(word.Trim(), out var kind)
            ? kind
            : throw new EntryProblemException(ClinicText.Lane.Get("Reminder.Unknown", word, string.Join(", ", Words)));
}
