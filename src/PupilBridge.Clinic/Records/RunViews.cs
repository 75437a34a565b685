using PupilBridge.Clinic.Text;
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
        TimingVerdict[] off = [TimingVerdict.TooShort, TimingVerdict.TooLong, TimingVerdict.CannotTell];
        StimulusEnd[] broken = [StimulusEnd.CutShort, StimulusEnd.EndLost, StimulusEnd.Overlapped, StimulusEnd.Running];
        var complete = stimuli.Where(s => s.End == StimulusEnd.Complete).ToList();
        var words = off.Select(v => (Count: complete.Count(s => s.DwellVerdict == v), Words: DwellsOf(v)))
            .Concat(off.Select(v => (Count: stimuli.Count(s => s.GapVerdict == v), Words: GapsOf(v))))
            .Concat(broken.Select(e => (Count: stimuli.Count(s => s.End == e), Words: EndsOf(e))))
            .Where(row => row.Count > 0)
            .Select(row => row.Words(row.Count))
            .ToList();
        return words.Count == 0 ? ClinicText.Records["Run.Within"] : string.Join(", ", words);
    }

    private static Func<int, string> DwellsOf(TimingVerdict verdict) =>
        count => ClinicText.Records.Of("RunDwell", verdict, count);

    private static Func<int, string> GapsOf(TimingVerdict verdict) =>
        count => ClinicText.Records.Of("RunGap", verdict, count);

    private static Func<int, string> EndsOf(StimulusEnd end) => count => ClinicText.Records.Of("RunEnd", end, count);
}
