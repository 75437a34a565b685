using System.CommandLine;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary><c>calibration run</c>: every disc several times by each scale, in an order drawn by lot.</summary>
internal sealed class CalibrationRunVerb : GuidedRunVerb
{
    private readonly Option<string?> discs = new("--discs")
    {
        Description = "The set of reference discs.",
        HelpName = "SET",
    };

    private readonly Option<string[]> only = new("--only")
    {
        Description = "Only these discs of the set, at least three.",
        HelpName = "DISC …",
        AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<int?> repeats = new("--repeats")
    {
        Description = "How often each scale reads each disc. Without it: the setting Bench:CalibrationRepeats.",
        HelpName = "N",
    };

    private readonly Option<double?> straightness = NumberOption.One(
        "--straightness",
        "U",
        "How far the scales may lie off a straight line by their construction, as a standard uncertainty in mm; 0 by default."
    );

    public CalibrationRunVerb()
        : base(
            "run",
            "Calibrates an instrument's scales with reference discs: says which disc is read next by which scale, follows the readings, and "
                + "ends with what they say.",
            BenchWords.Kinds[BenchRunKind.Calibration]
        )
    {
        foreach (var option in (ReadOnlySpan<Option>)[discs, only, repeats, straightness])
        {
            Add(option);
        }

        Example(
            "pupilbridge calibration run --instrument QA-1 --discs quay --temperature 21.5 --who TE",
            "all discs of the set 'quay'"
        );
        Example("pupilbridge calibration run --resume 412 --who TE", "goes on with run 412");
    }

    /// <inheritdoc/>
    protected override string Way =>
        "Set the edges of the disc that is asked for with the scale that is asked for (OD right, OS left), as on an eye. Enter finishes, "
        + "x NUMBER REASON sets a reading aside, q REASON gives up, Ctrl-C leaves the run open.";

    /// <inheritdoc/>
    protected override BeginRunEntry With(Call call, BeginRunEntry entry) =>
        entry with
        {
            DiscSet = call.Get(discs) ?? throw DiscsMissing(),
            Discs = call.Get(only) is { Length: > 0 } named ? named : null,
            Repeats = call.Get(repeats),
            StraightnessMillimetres = call.Get(straightness) ?? 0,
        };

    internal static CommandFailure DiscsMissing() =>
        new(
            ExitCode.Usage,
            "It is not said with which discs.",
            "Name the set with --discs SET; 'pupilbridge calibration discs list' shows those that there are."
        );
}
