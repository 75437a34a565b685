using PupilBridge.Clinic.Bench;
using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary><c>calibration timing</c>: the stimuli's dwell and dark times, with no eye before the instrument.</summary>
internal sealed class TimingVerb : GuidedRunVerb
{
    public TimingVerb()
        : base(
            "timing",
            "Times an instrument's stimuli: dwell, dark time, jitter and asymmetry, against the profile. It becomes part of the next certificate.",
            BenchWords.Kinds[BenchRunKind.StimulusTiming]
        ) => Example("pupilbridge calibration timing --instrument QA-1 --who TE", "until Enter is pressed");

    /// <inheritdoc/>
    protected override string Way =>
        "Turn the dial through the blocks, and let each run to its end; nobody need sit before the instrument.";
}
