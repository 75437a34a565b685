using System.CommandLine;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary><c>calibration check</c>: one disc, one minute.</summary>
internal sealed class QuickCheckVerb : GuidedRunVerb
{
    private readonly Option<string?> discs = new("--discs")
    {
        Description = "The set of reference discs.",
        HelpName = "SET",
    };

    private readonly Option<string?> disc = new("--disc")
    {
        Description = "Which disc of it. Without it: the one next to the middle of the range.",
        HelpName = "DISC",
    };

    private readonly Option<int?> repeats = new("--repeats")
    {
        Description = "How often each scale reads it. Without it: the setting Bench:QuickCheckRepeats.",
        HelpName = "N",
    };

    public QuickCheckVerb()
        : base(
            "check",
            "The quick check of a day: one disc by both scales, against the limit and for the drift.",
            BenchWords.Kinds[BenchRunKind.QuickCheck]
        )
    {
        Add(discs);
        Add(disc);
        Add(repeats);
        Example("pupilbridge calibration check --instrument QA-1 --discs quay --who TE", "with the disc in the middle");
    }

    /// <inheritdoc/>
    protected override string Way =>
        "Set the edges of the disc with the scale that is asked for (OD right, OS left), as on an eye.";

    /// <inheritdoc/>
    protected override BeginRunEntry With(Call call, BeginRunEntry entry) =>
        entry with
        {
            DiscSet = call.Get(discs) ?? throw CalibrationRunVerb.DiscsMissing(),
            Discs = call.Get(disc) is { } named ? [named] : null,
            Repeats = call.Get(repeats),
        };
}
