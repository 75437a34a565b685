using System.CommandLine;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary><c>calibration live</c>: how far settings of one living pupil scatter.</summary>
internal sealed class LiveVerb : GuidedRunVerb
{
    private readonly Option<int?> repeats = new("--repeats")
    {
        Description = "How often each eye is set in each light. Without it: the setting Bench:LiveRepeats.",
        HelpName = "N",
    };

    public LiveVerb()
        : base(
            "live",
            "A short study on one person: both eyes, bright and dim, several settings each. It gives the repeatability that no disc can give.",
            BenchWords.Kinds[BenchRunKind.LiveRepeatability]
        )
    {
        Add(repeats);
        Example(
            "pupilbridge calibration live --instrument QA-1 --repeats 5 --who TE",
            "five settings of each eye in each light"
        );
    }

    /// <inheritdoc/>
    protected override string Way =>
        "Set the edges of the pupil that is asked for, anew each time: let the scale go home before. If the instrument does not tell the "
        + "room's light, type bright or dim.";

    /// <inheritdoc/>
    protected override BeginRunEntry With(Call call, BeginRunEntry entry) => entry with { Repeats = call.Get(repeats) };
}
