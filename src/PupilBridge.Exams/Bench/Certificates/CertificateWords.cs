using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>The words of a certificate's text; they never change once a certificate holds them.</summary>
public static class CertificateWords
{
    /// <summary>The word of a statement.</summary>
    /// <param name="statement">The statement.</param>
    public static string Of(ConformityStatement statement) =>
        statement switch
        {
            ConformityStatement.Pass => "pass",
            ConformityStatement.ConditionalPass => "conditional-pass",
            ConformityStatement.ConditionalFail => "conditional-fail",
            ConformityStatement.Fail => "fail",
            _ => throw Unknown(statement),
        };

    /// <summary>The word of a rule.</summary>
    /// <param name="rule">The rule.</param>
    public static string Of(DecisionRuleKind rule) =>
        rule switch
        {
            DecisionRuleKind.SimpleAcceptance => "simple-acceptance",
            DecisionRuleKind.GuardBand => "guard-band",
            _ => throw Unknown(rule),
        };

    /// <summary>The word of a contribution.</summary>
    /// <param name="kind">Which.</param>
    public static string Of(ContributionKind kind) =>
        kind switch
        {
            ContributionKind.LineFromReadings => "line-from-readings",
            ContributionKind.LineFromDiscs => "line-from-discs",
            ContributionKind.Straightness => "straightness",
            ContributionKind.CommonOffset => "common-offset",
            ContributionKind.Repeatability => "repeatability",
            ContributionKind.Resolution => "resolution",
            _ => throw Unknown(kind),
        };

    /// <summary>The word of a reading's state.</summary>
    /// <param name="state">The state.</param>
    public static string Of(RunReadingState state) =>
        state switch
        {
            RunReadingState.Counts => "counts",
            RunReadingState.SetAside => "set-aside",
            RunReadingState.OtherScale => "other-scale",
            RunReadingState.NotAsked => "not-asked",
            RunReadingState.OtherLight => "other-light",
            _ => throw Unknown(state),
        };

    /// <summary>The word of a timing verdict.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Of(TimingVerdict verdict) =>
        verdict switch
        {
            TimingVerdict.NotJudged => "not-judged",
            TimingVerdict.Within => "within",
            TimingVerdict.TooShort => "too-short",
            TimingVerdict.TooLong => "too-long",
            TimingVerdict.CannotTell => "cannot-tell",
            _ => throw Unknown(verdict),
        };

    /// <summary>The word of a block.</summary>
    /// <param name="block">The block.</param>
    public static string Of(Block block) =>
        block switch
        {
            Block.Direct => "direct",
            Block.SwingShort => "swing-short",
            Block.SwingLong => "swing-long",
            Block.Near => "near",
            _ => "none",
        };

    /// <summary>The word of an eye.</summary>
    /// <param name="eye">The eye.</param>
    public static string Of(Eye eye) => eye == Eye.Right ? "right" : "left";

    private static ArgumentOutOfRangeException Unknown<T>(T value) =>
        new(nameof(value), value, "A certificate has no word for it.");
}
