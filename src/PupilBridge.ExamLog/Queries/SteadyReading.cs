using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Reads in several steps what must belong together.</summary>
internal static class SteadyReading
{
    /// <summary>
    /// Reads, and where something changed between the steps reads once more while nobody writes. What does not fit together even
    /// then is damage.
    /// </summary>
    /// <param name="file">The engine's files.</param>
    /// <param name="what">What is read, for a message.</param>
    /// <param name="read">Gives null where what it read does not fit together.</param>
    /// <exception cref="ExamLogBrokenException">It cannot be read, or does not fit together.</exception>
    public static T Read<T>(DocumentFile file, string what, Func<LiteDatabase, T?> read)
        where T : class =>
        file.Read(what, read)
        ?? file.WhileNobodyWrites(() => file.Read(what, read))
        ?? throw file.Break($"{what}: a key leads to a document that does not belong there.");
}
