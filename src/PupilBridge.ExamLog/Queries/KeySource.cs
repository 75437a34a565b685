using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>One range of the keys that lead to exams.</summary>
/// <param name="exams">The exams and their keys.</param>
/// <param name="list">The list, as the first part of its keys.</param>
/// <param name="within">The times of opening.</param>
internal sealed class KeySource(DocumentShelf<StoredExam> exams, string list, OpenedWithin within) : ExamSource
{
    /// <inheritdoc/>
    public override List<ExamPlace> Places(LiteDatabase database, ExamPlace? below, int count) =>
        Keys(database, below, count).ConvertAll(SortKey.PlaceIn);

    /// <inheritdoc/>
    public override List<StoredExam>? Read(LiteDatabase database, ExamPlace? below, int count, bool whole)
    {
        var keys = Keys(database, below, count);
        var ids = keys.ConvertAll(SortKey.IdIn);
        var found = whole
            ? exams.FindMany(database, ids)
            : exams.FindMany(database, ids, ExamKind.GlanceFields, ExamKind.Glance);
        return Belong(found, keys) ? found : null;
    }

    /// <summary>Whether each key led to an exam that has it.</summary>
    public static bool Belong(List<StoredExam> found, List<string> keys) =>
        found.Count == keys.Count
        && found.Zip(keys).All(pair => ExamKind.Instance.KeysOf(pair.First).Contains(pair.Second));

    private List<string> Keys(LiteDatabase database, ExamPlace? below, int count) =>
        exams.Keys!.Read(database, within.Lower(list), within.Upper(list, below), count, falling: true);
}
