using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Findings;

/// <summary>The readings behind a finding, each with its place in the journal.</summary>
internal static class RawBehind
{
    private static readonly Eye[] BothEyes = [Eye.Right, Eye.Left];
    private static readonly RoomLight[] BothLights = [RoomLight.Bright, RoomLight.Dim];

    /// <summary>The readings that the criterion read, right before left; none where it reads no single ones.</summary>
    public static IEnumerable<FindingRaw> Of(Exam exam, RecordFinding finding)
    {
        Eye[] eyes = finding.Eye is null ? BothEyes : [finding.Eye == "right" ? Eye.Right : Eye.Left];
        RoomLight[] lights = finding.Light is null
            ? BothLights
            : [finding.Light == "bright" ? RoomLight.Bright : RoomLight.Dim];
        var places = finding.Criterion switch
        {
            "dilation-lag" => Captures(exam, RoomLight.Dim),
            "dim-not-larger" => Sizes(exam, eyes, BothLights),
            "size-beyond-age-and-light" or "size-beyond-decade" or "size-changed" => Sizes(exam, eyes, lights),
            // A difference is between both eyes, though the finding names the one with the larger pupil.
            _ when finding.Criterion.StartsWith("anisocoria", StringComparison.Ordinal) => Sizes(
                exam,
                BothEyes,
                lights
            ),
            "shape-not-round" => Judged(eyes.Select(eye => CurrentJudgements.Shape(exam, eye))),
            "direct-poor" => Judged(eyes.Select(eye => CurrentJudgements.Direct(exam, eye))),
            "near-due" => Judged(BothEyes.Select(eye => CurrentJudgements.Direct(exam, eye))),
            "light-near-dissociation" => Judged(
                eyes.SelectMany(eye => new[] { CurrentJudgements.Direct(exam, eye), CurrentJudgements.Near(exam, eye) })
            ),
            "afferent-pattern" or "efferent-pattern" => Judged(
                BothEyes.SelectMany(eye =>
                    new[] { CurrentJudgements.Direct(exam, eye), CurrentJudgements.Consensual(exam, eye) }
                )
            ),
            "slow-to-dilate" => Judged(eyes.Select(eye => CurrentJudgements.SlowToDilate(exam, eye))),
            "swinging-short" => Judged(CurrentJudgements.Swings(exam, Block.SwingShort)),
            "swinging-long" => Judged(CurrentJudgements.Swings(exam, Block.SwingLong)),
            "rapd" or "rapd-one-pupil" => Judged([
                .. CurrentJudgements.Swings(exam, Block.SwingShort),
                .. CurrentJudgements.Swings(exam, Block.SwingLong),
            ]),
            "rapd-log-units" => (DefectGrades.Bracket(exam)?.Steps ?? []).Select(step => step.Sequence),
            "rapd-bell-grade" => DefectGrades.Bell(exam) is { } given ? [given.Sequence] : [],
            "eye-status-unreliable" => eyes.Select(eye =>
                    exam.EyeStatuses.LastOrDefault(s => s.Eye == eye && s.WithdrawnBy is null)?.Sequence
                )
                .OfType<JournalSequence>(),
            _ => [],
        };
        return places.Distinct().Select(place => new FindingRaw(place.Value));
    }

    private static IEnumerable<JournalSequence> Sizes(Exam exam, Eye[] eyes, RoomLight[] lights) =>
        lights
            .SelectMany(light => eyes.Select(eye => PupilSizes.Of(exam, eye, light)?.Capture.CompletedBy))
            .OfType<JournalSequence>();

    private static IEnumerable<JournalSequence> Captures(Exam exam, RoomLight light) =>
        exam.Captures.Where(c => c.Light == light).Items.Select(c => c.CompletedBy);

    private static IEnumerable<JournalSequence> Judged(IEnumerable<JudgementRecord?> judgements) =>
        judgements.OfType<JudgementRecord>().Select(judgement => judgement.Sequence);
}
