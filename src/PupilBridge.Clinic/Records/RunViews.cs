using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Records;

/// <summary>The runs of an exam's blocks with counts and timing.</summary>
internal static class RunViews
{
    /// <summary>One run. Its stimuli are the complete ones of both eyes; for swinging blocks the profile wants two for each alternation.</summary>
    public static BlockRunView Of(Exam exam, BlockRun run) =>
        new(
            ClinicWords.Blocks[run.Block],
            run.Number,
            run.Right + run.Left,
            Wanted(exam.Profile, run.Block),
            run.HasReachedCount,
            Timing([.. exam.Stimuli.Where(s => s.Block == run.Block && s.Run == run.Number)])
        );

    private static int Wanted(Profile profile, Block block) =>
        block switch
        {
            Block.Direct => 2 * profile.Direct.StimuliPerEye,
            Block.SwingShort => 2 * profile.SwingShort.Alternations,
            Block.SwingLong => 2 * profile.SwingLong.Alternations,
            _ => 0,
        };

    private static string Timing(IReadOnlyList<Stimulus> stimuli)
    {
        var dwells = stimuli.Where(s => s.End == StimulusEnd.Complete).Select(s => s.DwellVerdict).ToList();
        var gaps = stimuli.Select(s => s.GapVerdict).ToList();
        var off = Counted(dwells, "dwell")
            .Concat(Counted(gaps, "gap"))
            .Concat(Ends(stimuli, StimulusEnd.CutShort, "cut short"))
            .Concat(Ends(stimuli, StimulusEnd.EndLost, "with its end lost"))
            .Concat(Ends(stimuli, StimulusEnd.Overlapped, "while the other eye was lit"))
            .Concat(Ends(stimuli, StimulusEnd.Running, "still running"))
            .ToList();
        return off.Count == 0 ? "all within tolerance" : string.Join(", ", off);
    }

    private static IEnumerable<string> Counted(List<TimingVerdict> verdicts, string what) =>
        new (TimingVerdict Verdict, string Words)[]
        {
            (TimingVerdict.TooShort, "too short"),
            (TimingVerdict.TooLong, "too long"),
            (TimingVerdict.CannotTell, "not surely within tolerance"),
        }
            .Select(row => (Count: verdicts.Count(verdict => verdict == row.Verdict), row.Words))
            .Where(row => row.Count > 0)
            .Select(row => $"{row.Count} {what}{(row.Count == 1 ? "" : "s")} {row.Words}");

    private static IEnumerable<string> Ends(IReadOnlyList<Stimulus> stimuli, StimulusEnd end, string words)
    {
        var count = stimuli.Count(stimulus => stimulus.End == end);
        return count == 0 ? [] : [$"{count} {(count == 1 ? "stimulus" : "stimuli")} {words}"];
    }
}
