using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>One reading that a bench run asks for.</summary>
/// <param name="Eye">By which scale.</param>
/// <param name="Disc">Of which disc, by its name; null where a living pupil is measured.</param>
/// <param name="Light">In which room light; null where it does not matter.</param>
public readonly record struct BenchStep(Eye Eye, string? Disc, RoomLight? Light);
