using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using PupilBridge.Clinic.Judging;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;

namespace PupilBridge.Clinic.Records;

/// <summary>
/// The fields of a journal entry by name, its own first, then who and when. They follow the entry's own members, so that a kind that is
/// added later is shown whole without anyone thinking of it.
/// </summary>
internal static class EntryFields
{
    /// <summary>An entry's kind in a word, such as <c>instrument-reported</c>.</summary>
    public static string KindOf(JournalEntry entry) => Name(entry.GetType().Name);

    /// <summary>The fields; those that hold nothing are left out.</summary>
    public static IReadOnlyList<KeyValuePair<string, string>> Of(JournalEntry entry) =>
        [
            .. Members(entry)
                .Select(member => (member.Name, Value: Text(member.GetValue(entry))))
                .Where(field => field.Value is not null)
                .Select(field => KeyValuePair.Create(Plain(field.Name), field.Value!)),
        ];

    private static IEnumerable<PropertyInfo> Members(object value) =>
        value
            .GetType()
            .GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(member => member.GetIndexParameters().Length == 0)
            .OrderBy(member => member.DeclaringType == value.GetType() ? 0 : 1);

    private static string? Text(object? value) =>
        value switch
        {
            null => null,
            string text => text,
            bool flag => flag ? "yes" : "no",
            Enum one => Name(one.ToString()),
            Judgement judgement => JudgementSyntax.Write(judgement),
            PatientDetails details => Details(details),
            DateOnly date => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            IEnumerable items => Listed(items),
            DayListItem item => $"{item.Patient} {DayLists.DayListItems.TimeOf(item)}".Trim(),
            ValueType id => id.ToString(),
            _ when Members(value).Any() => string.Join(
                "; ",
                Members(value).Select(member => $"{Plain(member.Name)}: {Text(member.GetValue(value))}")
            ),
            _ => value.ToString(),
        };

    private static string? Listed(IEnumerable items)
    {
        var texts = items.Cast<object?>().Select(Text).OfType<string>().ToList();
        return texts.Count == 0 ? null : string.Join("\n", texts);
    }

    private static string Details(PatientDetails details) =>
        new Desk.Identity(details.Name.Length == 0 ? null : details.Name, details.BirthDate).ToString();

    private static string Plain(string name) => Name(name).Replace('-', ' ');

    private static string Name(string name) => JsonNamingPolicy.KebabCaseLower.ConvertName(name);
}
