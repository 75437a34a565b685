using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria;

/// <summary>Puts a finding into words, from the criterion's own texts.</summary>
internal static class FindingText
{
    /// <summary>What closes every caution.</summary>
    public const string Closing = "Follow local policy; a licensed practitioner decides.";

    /// <summary>What a sign that was not found is not.</summary>
    public const string ExcludesNothing = "That alone excludes nothing.";

    /// <summary>The finding with its sentence and cautions.</summary>
    public static Finding Complete(Criterion criterion, Finding finding, params ReadOnlySpan<string> more)
    {
        var cautions = ValueList<string>.Empty;
        if (finding.Verdict is CriterionVerdict.Met)
        {
            if (criterion.Caution.Length > 0)
                cautions = cautions.Add(Fill(criterion.Caution, finding));
            foreach (var caution in more)
                cautions = cautions.Add(caution);
            cautions = cautions.Add(Closing);
        }

        return finding with
        {
            Sentence = Sentence(criterion, finding),
            Cautions = cautions,
        };
    }

    /// <summary>The further look of a criterion with what belongs to be asked beside it, for this finding.</summary>
    public static string FurtherLook(Criterion criterion, Finding finding)
    {
        var look = Fill(criterion.FurtherLook, finding);
        return criterion.Questions.Count == 0
            ? look
            : $"{look} To ask: {Fill(string.Join(' ', criterion.Questions), finding)}";
    }

    private static string Sentence(Criterion criterion, Finding finding)
    {
        var reason = FindingReasons.Words(finding.Reason);
        return finding.Verdict switch
        {
            CriterionVerdict.Met => Fill(criterion.WhenMet, finding),
            CriterionVerdict.NotMet when criterion.Kind == CriterionKind.Sign =>
                $"{Fill(criterion.WhenNotMet, finding)} {ExcludesNothing}",
            CriterionVerdict.NotMet => Fill(criterion.WhenNotMet, finding),
            CriterionVerdict.CannotTell => $"It cannot be told whether {Fill(criterion.Asks, finding)}: {reason}.",
            _ => $"Not examined whether {Fill(criterion.Asks, finding)}: {reason}.",
        };
    }

    private static string Fill(string text, Finding finding)
    {
        var eye = finding.Eye;
        return text.Replace("{eye}", eye is { } e ? Words.Of(e) : "an eye", StringComparison.Ordinal)
            .Replace("{fellow}", eye is { } f ? Words.Of(f.Fellow()) : "the fellow eye", StringComparison.Ordinal)
            .Replace("{light}", finding.Light is { } light ? Words.Of(light) : "room", StringComparison.Ordinal)
            .Replace("{block}", Block(finding.Block), StringComparison.Ordinal)
            .Replace("{value}", Number(finding.Value, 2), StringComparison.Ordinal)
            .Replace("{u}", Number(finding.ExpandedUncertainty, 2), StringComparison.Ordinal)
            .Replace("{limit}", Number(finding.Limit, 1), StringComparison.Ordinal)
            .Replace("{detail}", finding.Detail, StringComparison.Ordinal);
    }

    private static string Block(Block block) =>
        block switch
        {
            Instrument.Block.Direct => "direct",
            Instrument.Block.SwingShort => "short-dwell",
            Instrument.Block.SwingLong => "long-dwell",
            _ => "near",
        };

    private static string Number(double? value, int digits) =>
        value is { } number
            ? Math.Round((decimal)number, digits, MidpointRounding.AwayFromZero)
                .ToString(digits == 2 ? "0.00" : "0.0##", System.Globalization.CultureInfo.InvariantCulture)
            : "unknown";
}
