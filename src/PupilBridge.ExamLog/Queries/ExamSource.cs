using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Where a list of exams is read from: ranges that hold them in the order of lists, the latest opened first.</summary>
internal abstract class ExamSource
{
    /// <summary>The places of the latest exams of the source, read from indexes alone.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="below">What all of them stand before; null for no limit.</param>
    /// <param name="count">The most to read.</param>
    public abstract List<ExamPlace> Places(LiteDatabase database, ExamPlace? below, int count);

    /// <summary>The latest exams of the source.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="below">What all of them stand before; null for no limit.</param>
    /// <param name="count">The most to read.</param>
    /// <param name="whole">Whether they are to be shown; otherwise only what filters look at is read.</param>
    /// <returns>Null if an exam changed between two steps of the reading.</returns>
    /// <exception cref="InvalidDataException">A range leads to an exam that does not belong there.</exception>
    public abstract List<StoredExam>? Read(LiteDatabase database, ExamPlace? below, int count, bool whole);
}

/// <summary>The times of opening that a list is limited to.</summary>
/// <param name="FromMs">The earliest, in milliseconds since 1970.</param>
/// <param name="BeforeMs">What all are earlier than; null for no limit.</param>
internal readonly record struct OpenedWithin(long FromMs, long? BeforeMs)
{
    public static OpenedWithin Of(ExamQuery query) =>
        new(query.OpenedFrom?.ToUnixTimeMilliseconds() ?? long.MinValue, query.OpenedBefore?.ToUnixTimeMilliseconds());

    /// <summary>What all keys of a list stand after.</summary>
    public string Lower(string list) => SortKey.Edge(list, FromMs);

    /// <summary>What all keys of a list stand before.</summary>
    public string Upper(string list, ExamPlace? below)
    {
        var end = BeforeMs is { } before ? SortKey.Edge(list, before) : SortKey.End(list);
        var place = below is { } at ? SortKey.Of(list, at.OpenedAtMs, at.Id) : end;
        return string.CompareOrdinal(place, end) < 0 ? place : end;
    }
}
