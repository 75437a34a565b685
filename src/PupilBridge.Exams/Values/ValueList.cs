using System.Collections;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace PupilBridge.Exams.Values;

/// <summary>
/// An immutable list whose equality is that of its items in their order, so that records that hold one compare by value.
/// The default value is the empty list. Safe to share between threads.
/// </summary>
/// <typeparam name="T">What the list holds.</typeparam>
[CollectionBuilder(typeof(ValueList), nameof(ValueList.Create))]
[System.Text.Json.Serialization.JsonConverter(typeof(ValueListJsonConverterFactory))]
public readonly struct ValueList<T> : IReadOnlyList<T>, IEquatable<ValueList<T>>
{
    private readonly ImmutableArray<T> items;

    /// <summary>Takes the items of an array as they are.</summary>
    /// <param name="items">The items; a default array is the empty list.</param>
    public ValueList(ImmutableArray<T> items) => this.items = items;

    /// <summary>The list without items.</summary>
    public static ValueList<T> Empty => default;

    /// <summary>The items as an array; never a default one.</summary>
    public ImmutableArray<T> Items => items.IsDefault ? [] : items;

    /// <inheritdoc/>
    public int Count => items.IsDefault ? 0 : items.Length;

    /// <inheritdoc/>
    public T this[int index] => Items[index];

    /// <summary>The last item; the default value of its type if there is none.</summary>
    public T? Latest => Count == 0 ? default : items[^1];

    /// <summary>The list with one more item at its end.</summary>
    /// <param name="item">The item.</param>
    /// <returns>A new list.</returns>
    public ValueList<T> Add(T item) => new(Items.Add(item));

    /// <summary>The list with one item replaced.</summary>
    /// <param name="index">Which one, from 0.</param>
    /// <param name="item">What stands there afterwards.</param>
    /// <returns>A new list.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such item.</exception>
    public ValueList<T> SetItem(int index, T item) => new(Items.SetItem(index, item));

    /// <summary>The items that fulfil a condition, in their order.</summary>
    /// <param name="condition">The condition.</param>
    /// <returns>A new list.</returns>
    public ValueList<T> Where(Func<T, bool> condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        return new([.. Enumerable.Where(Items, condition)]);
    }

    /// <inheritdoc/>
    public bool Equals(ValueList<T> other) => Items.AsSpan().SequenceEqual(other.Items.AsSpan());

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is ValueList<T> other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var item in Items)
            hash.Add(item);
        return hash.ToHashCode();
    }

    /// <summary>Walks through the items without allocation.</summary>
    /// <returns>An enumerator.</returns>
    public ImmutableArray<T>.Enumerator GetEnumerator() => Items.GetEnumerator();

    IEnumerator<T> IEnumerable<T>.GetEnumerator() => ((IEnumerable<T>)Items).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => ((IEnumerable)Items).GetEnumerator();

    /// <summary>Whether both hold equal items in the same order.</summary>
    public static bool operator ==(ValueList<T> left, ValueList<T> right) => left.Equals(right);

    /// <summary>Whether the lists differ.</summary>
    public static bool operator !=(ValueList<T> left, ValueList<T> right) => !left.Equals(right);

    /// <inheritdoc/>
    public override string ToString() => $"[{string.Join(", ", Items)}]";
}

/// <summary>Makes a <see cref="ValueList{T}"/> from a collection expression.</summary>
public static class ValueList
{
    /// <summary>A list of the items given.</summary>
    /// <typeparam name="T">What the list holds.</typeparam>
    /// <param name="items">The items.</param>
    /// <returns>The list.</returns>
    public static ValueList<T> Create<T>(ReadOnlySpan<T> items) => new([.. items]);
}
