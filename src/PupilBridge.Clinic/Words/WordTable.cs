using System.Collections.Frozen;

namespace PupilBridge.Clinic.Words;

/// <summary>
/// The words by which the values of one kind are written outside the program: stable, in lower case, each with one value. They
/// are part of what other systems read, so a word once given stays.
/// </summary>
/// <typeparam name="T">The values.</typeparam>
public sealed class WordTable<T>
    where T : notnull
{
    private readonly string what;
    private readonly FrozenDictionary<T, string> words;
    private readonly FrozenDictionary<string, T> values;
    private readonly string[] listed;

    internal WordTable(string what, params (T Value, string Word, string[] AlsoRead)[] rows)
    {
        this.what = what;
        words = rows.ToFrozenDictionary(row => row.Value, row => row.Word);
        values = rows.SelectMany(row => row.AlsoRead.Append(row.Word).Select(word => (word, row.Value)))
            .ToFrozenDictionary(pair => pair.word, pair => pair.Value, StringComparer.OrdinalIgnoreCase);
        listed = [.. rows.Select(row => row.Word)];
    }

    internal WordTable(string what, params (T Value, string Word)[] rows)
        : this(what, [.. rows.Select(row => (row.Value, row.Word, Array.Empty<string>()))]) { }

    /// <summary>All words, in the order in which they are offered.</summary>
    public IReadOnlyList<string> All => listed;

    /// <summary>The word for a value.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is none.</exception>
    public string this[T value] =>
        words.TryGetValue(value, out var word)
            ? word
            : throw new ArgumentOutOfRangeException(nameof(value), value, $"There is no word for this {what}.");

    /// <summary>Reads a word; capitals do not matter.</summary>
    /// <param name="word">The word.</param>
    /// <param name="value">Its value.</param>
    /// <returns>False if it is none of them.</returns>
    public bool TryRead(string? word, out T value)
    {
        value = default!;
        return word is not null && values.TryGetValue(word, out value!);
    }

    /// <summary>Reads a word.</summary>
    /// <exception cref="EntryProblemException">It is none of them; the message lists what is.</exception>
    public T Read(string? word) =>
        TryRead(word, out var value) ? value : throw new EntryProblemException(Problem(word));

    /// <summary>What is wrong with a word, for a person.</summary>
    public string Problem(string? word) => $"'{word}' is no {what}; give one of: {string.Join(", ", listed)}.";
}
