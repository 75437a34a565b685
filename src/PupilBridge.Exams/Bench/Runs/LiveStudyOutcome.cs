using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>What a study on a person says.</summary>
/// <param name="Found">The repeatability; null where the settings allow none.</param>
/// <param name="Refusal">Why there is none, for a person; null where there is one.</param>
public sealed record LiveStudyOutcome(LiveRepeatability? Found, string? Refusal)
{
    /// <summary>Looks at a study.</summary>
    /// <param name="sitting">The run.</param>
    /// <returns>What it says.</returns>
    /// <exception cref="ArgumentException">It is no such study.</exception>
    public static LiveStudyOutcome Of(Exam sitting)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        if (sitting.Bench is not { Kind: BenchRunKind.LiveRepeatability })
            throw new ArgumentException("It is no study on a person.", nameof(sitting));
        var series = RunProgress
            .Of(sitting)
            .Counting.GroupBy(reading => (reading.Capture.Eye, reading.Step!.Value.Light))
            .Select(alike => new LiveSettings(
                alike.Key.Eye,
                alike.Key.Light == RoomLight.Dim,
                [.. alike.Select(reading => reading.IndicatedMillimetres)]
            ))
            .ToArray();
        try
        {
            return new(LiveRepeatability.Of(series), null);
        }
        catch (StatisticsRefusedException refused)
        {
            return new(null, refused.Message);
        }
    }
}
