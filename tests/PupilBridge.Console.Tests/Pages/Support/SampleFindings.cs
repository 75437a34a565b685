using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>One finding of each verdict.</summary>
internal static class SampleFindings
{
    public static IReadOnlyList<FindingView> All { get; } =
    [
        Of("anisocoria-descriptive", "met", "The sizes in bright light differ beyond the limit.") with
        {
            Eye = "OD",
            Light = "bright",
            Value = 0.8m,
            ExpandedUncertainty = 0.283m,
            Limit = 0.4m,
            Unit = "mm",
            Cautions = ["A small one is no reassurance.", "Follow local policy; a licensed practitioner decides."],
            Sources = ["Lam, Thompson, Corbett 1987"],
            FurtherLook = "Measure in dim light too. To ask: Since when?",
            Raw = [new(11), new(12)],
        },
        Of(
            "dilation-lag",
            "cannot-tell",
            "It cannot be told whether there is a lag: the uncertainty reaches over the limit."
        ),
        Of("rapd", "not-met", "No RAPD seen. That alone excludes nothing."),
        Of("rapd-log-units", "not-examined", "Not examined whether the defect was bracketed."),
    ];

    /// <summary>Nothing to bracket or grade.</summary>
    public static DefectGradeView NoDefect { get; } =
        new()
        {
            Eye = null,
            Steps = [],
            Prompt = null,
            NextLogUnits = null,
            BeforeEye = null,
            Bell = null,
            Offered = [],
        };

    private static FindingView Of(string criterion, string verdict, string sentence) =>
        new()
        {
            Criterion = criterion,
            Verdict = verdict,
            Reason = null,
            Eye = null,
            Light = null,
            Block = null,
            Value = null,
            ExpandedUncertainty = null,
            Limit = null,
            Unit = null,
            Sentence = sentence,
            Cautions = [],
            Sources = [],
            FurtherLook = "",
            Raw = [],
        };
}
