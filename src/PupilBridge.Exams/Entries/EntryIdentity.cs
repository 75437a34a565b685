using System.Globalization;

namespace PupilBridge.Exams.Entries;

/// <summary>
/// Where an entry stands in the journal: 1 for the first, each one more. The default value 0 names no entry.
/// </summary>
/// <param name="Value">0 (none) to 2^63 − 1.</param>
public readonly record struct JournalSequence(long Value) : IComparable<JournalSequence>
{
    /// <inheritdoc/>
    public int CompareTo(JournalSequence other) => Value.CompareTo(other.Value);

    /// <summary>Whether the left entry stands earlier.</summary>
    public static bool operator <(JournalSequence left, JournalSequence right) => left.Value < right.Value;

    /// <summary>Whether the left entry stands later.</summary>
    public static bool operator >(JournalSequence left, JournalSequence right) => left.Value > right.Value;

    /// <summary>Whether the left entry stands earlier or is the same.</summary>
    public static bool operator <=(JournalSequence left, JournalSequence right) => left.Value <= right.Value;

    /// <summary>Whether the left entry stands later or is the same.</summary>
    public static bool operator >=(JournalSequence left, JournalSequence right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture);
}

/// <summary>
/// Names an exam: the journal sequence of the entry that opened it, so that the exam keeps its name whenever the log is
/// built anew. The default value 0 names no exam.
/// </summary>
/// <param name="Value">0 (none) to 2^63 − 1.</param>
public readonly record struct ExamId(long Value) : IComparable<ExamId>
{
    /// <summary>The exam that an entry opens.</summary>
    /// <param name="opening">Where that entry stands in the journal.</param>
    /// <returns>The exam's name.</returns>
    public static ExamId OpenedBy(JournalSequence opening) => new(opening.Value);

    /// <inheritdoc/>
    public int CompareTo(ExamId other) => Value.CompareTo(other.Value);

    /// <summary>Whether the left exam was opened earlier.</summary>
    public static bool operator <(ExamId left, ExamId right) => left.Value < right.Value;

    /// <summary>Whether the left exam was opened later.</summary>
    public static bool operator >(ExamId left, ExamId right) => left.Value > right.Value;

    /// <summary>Whether the left exam was opened earlier or is the same.</summary>
    public static bool operator <=(ExamId left, ExamId right) => left.Value <= right.Value;

    /// <summary>Whether the left exam was opened later or is the same.</summary>
    public static bool operator >=(ExamId left, ExamId right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture);
}

/// <summary>
/// The 128-bit name of something a person entered, made at random where it was typed, so that the same entry sent again
/// after an interruption is known as the same. The default value 0 names none.
/// </summary>
/// <param name="Value">Any 128-bit number.</param>
public readonly record struct EntryId(UInt128 Value)
{
    /// <summary>Takes the bits of a random GUID.</summary>
    /// <param name="random">A GUID that the caller drew.</param>
    /// <returns>The same bits as an entry's name.</returns>
    public static EntryId From(Guid random)
    {
        Span<byte> bytes = stackalloc byte[16];
        random.TryWriteBytes(bytes, bigEndian: true, out _);
        return new(System.Buffers.Binary.BinaryPrimitives.ReadUInt128BigEndian(bytes));
    }

    /// <summary>Reads 32 hexadecimal digits.</summary>
    /// <param name="text">The text.</param>
    /// <param name="id">The name read.</param>
    /// <returns>False if the text is something else.</returns>
    public static bool TryParse(string? text, out EntryId id)
    {
        id = default;
        if (text is not { Length: 32 })
            return false;
        if (!UInt128.TryParse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var value))
            return false;
        id = new(value);
        return true;
    }

    /// <summary>Thirty-two lower-case hexadecimal digits.</summary>
    public override string ToString() => Value.ToString("x32", CultureInfo.InvariantCulture);
}
