using System.Collections;
using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Globalization;
using System.Resources;

namespace PupilBridge.Clinic.Text;

/// <summary>
/// The words for people out of one resource file, in the language of the house. A text may hold places for values,
/// <c>{0}</c> and on, as <see cref="string.Format(IFormatProvider, string, object?[])"/> reads them.
/// </summary>
/// <remarks>
/// Safe for several threads. Numbers and dates in values are written in the invariant way. A key without a text gives the key itself in
/// brackets: a missing word must not take a screen away from people.
/// </remarks>
/// <param name="resources">The file, neutral language English.</param>
/// <param name="language">One of <see cref="HouseLanguage.All"/>; null for whatever the process has chosen.</param>
public sealed class HouseText(ResourceManager resources, string? language = null)
{
    private readonly ConcurrentDictionary<string, string> pseudo = new(StringComparer.Ordinal);
    private readonly Lazy<FrozenSet<string>> keys = new(() => KeysOf(resources));
    private readonly string? language = language is null ? null : HouseLanguage.Checked(language);

    /// <summary>The words of a resource file that is part of an assembly.</summary>
    /// <param name="inAssemblyOf">A type of that assembly.</param>
    /// <param name="baseName">The file's full name without ending, such as <c>PupilBridge.Clinic.Text.Lane</c>.</param>
    public HouseText(Type inAssemblyOf, string baseName)
        : this(
            new ResourceManager(
                baseName,
                (inAssemblyOf ?? throw new ArgumentNullException(nameof(inAssemblyOf))).Assembly
            )
        ) { }

    /// <summary>All keys of the file.</summary>
    public IReadOnlySet<string> Keys => keys.Value;

    /// <summary>The text of a key.</summary>
    /// <param name="key">The key.</param>
    public string this[string key] => Template(key);

    /// <summary>The text of a key with values put in their places.</summary>
    /// <param name="key">The key.</param>
    /// <param name="values">The values for <c>{0}</c>, <c>{1}</c> and on.</param>
    public string Get(string key, params object?[] values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var template = Template(key);
        return values.Length == 0 ? template : string.Format(CultureInfo.InvariantCulture, template, values);
    }

    /// <summary>A text that names a number of things: that of <c>key.One</c> where there is one thing, else that of the key.</summary>
    /// <param name="key">The key of the text for several.</param>
    /// <param name="count">How many things.</param>
    /// <param name="values">The values for <c>{0}</c>, <c>{1}</c> and on; the number is one of them.</param>
    public string Counted(string key, long count, params object?[] values) =>
        Get(count == 1 ? $"{key}.One" : key, values);

    /// <summary>The text for one value of a closed family: that of the key <c>group.Value</c>.</summary>
    /// <typeparam name="T">The family.</typeparam>
    /// <param name="group">What stands before the point.</param>
    /// <param name="value">The value; its name stands behind the point.</param>
    /// <param name="values">The values for <c>{0}</c>, <c>{1}</c> and on.</param>
    public string Of<T>(string group, T value, params object?[] values)
        where T : struct, Enum => Get($"{group}.{value}", values);

    /// <summary>
    /// The text for one of a closed set of words: that of the key <c>group.word</c>. A word without a text stands as it is, so that what a
    /// newer program wrote is readable in an older one.
    /// </summary>
    /// <param name="group">What stands before the point.</param>
    /// <param name="word">The word.</param>
    public string Of(string group, string word)
    {
        var key = $"{group}.{word}";
        return Keys.Contains(key) ? Template(key) : word;
    }

    private string Template(string key) =>
        (language ?? HouseLanguage.Current) == HouseLanguage.Pseudo
            ? pseudo.GetOrAdd(key, k => PseudoText.Of(English(k)))
            : English(key);

    private string English(string key) => resources.GetString(key, CultureInfo.InvariantCulture) ?? $"[{key}]";

    private static FrozenSet<string> KeysOf(ResourceManager resources) =>
        resources
            .GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: false)!
            .Cast<DictionaryEntry>()
            .Select(entry => (string)entry.Key)
            .ToFrozenSet(StringComparer.Ordinal);
}
