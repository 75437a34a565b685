using CsCheck;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of every kind.</summary>
internal static class EntryGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new[]
    {
        ServiceEntryGen.ByKind,
        PersonEntryGen.ByKind,
        ExamCourseGen.ByKind,
        ExamFindingGen.ByKind,
        DefectGradeGen.ByKind,
        BenchGen.ByKind,
    }
        .SelectMany(kinds => kinds)
        .ToDictionary();

    /// <summary>An entry of any kind.</summary>
    public static readonly Gen<JournalEntry> Any = Gen.OneOf([.. ByKind.Values]);
}
