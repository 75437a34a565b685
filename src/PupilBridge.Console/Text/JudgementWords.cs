using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Text;

/// <summary>
/// A judgement taken apart: what, of which eye, and how. Its text is written in the one way that the desk writes it, such as
/// <c>direct OD 3</c>.
/// </summary>
/// <param name="Kind"><c>shape</c>, <c>direct</c>, <c>consensual</c>, <c>near</c>, <c>swing</c> or <c>slow-to-dilate</c>.</param>
/// <param name="Eye"><c>OD</c> or <c>OS</c>; of a consensual response the eye that was lit; empty for swinging.</param>
/// <param name="Dwell"><c>short</c> or <c>long</c> for swinging, else empty.</param>
/// <param name="Value">The rest: the grade, the form, or the outcome.</param>
internal sealed record JudgementWords(string Kind, string Eye, string Dwell, string Value)
{
    /// <summary>What stands for "looked, and could not see".</summary>
    public const string CouldNotSee = "could-not-see";

    /// <summary>Takes a judgement apart.</summary>
    public static JudgementWords Of(JudgementView judgement) => Of(judgement.Judgement);

    /// <summary>Takes a judgement apart.</summary>
    /// <param name="judgement">Its text.</param>
    public static JudgementWords Of(string judgement)
    {
        var words = judgement.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words switch
        {
            ["swing", var dwell, .. var outcome] => new("swing", "", dwell, string.Join(' ', outcome)),
            ["consensual", "lit", var eye, .. var grade] => new("consensual", eye, "", string.Join(' ', grade)),
            [var kind, ("OD" or "OS") and var eye, .. var value] => new(kind, eye, "", string.Join(' ', value)),
            _ => new(judgement, "", "", ""),
        };
    }

    /// <summary>What was judged, for a person.</summary>
    public string What =>
        Kind switch
        {
            "swing" => PageText.Of("Swing", Dwell),
            _ when Eye.Length == 0 => Kind,
            "consensual" => PageText.Words.Get("Judgement.ConsensualOfEye", PageText.Of("Eye", Eye)),
            _ => PageText.Words.Get("Judgement.OfEye", PageText.Of("Kind", Kind), PageText.Of("Eye", Eye)),
        };

    /// <summary>How it was judged, for a person.</summary>
    public string How =>
        Kind == "swing" ? Outcome
        : Kind == "slow-to-dilate" ? PageText.Words["Value.Yes"]
        : PageText.Of("Shape", Value);

    /// <summary>What and how in one; a text of another form is shown as it is.</summary>
    public string Whole =>
        Value.Length == 0 && Kind != "slow-to-dilate" ? What : PageText.Words.Get("Judgement.Whole", What, How);

    /// <summary>The grade in whole steps below and above, if it is a grade: alike unless it is a half step.</summary>
    public (int Below, int Above)? Steps =>
        Kind is "direct" or "consensual" or "near"
        && decimal.TryParse(Value, System.Globalization.CultureInfo.InvariantCulture, out var grade)
        && grade is >= 0 and <= 4
            ? ((int)Math.Floor(grade), (int)Math.Ceiling(grade))
            : null;

    private string Outcome
    {
        get
        {
            var words = Value.Split(' ');
            var at = Array.IndexOf(words, "pupil");
            var outcome = string.Join(' ', at < 0 ? words : words[..at]);
            var said = PageText.Of("SwingOutcome", outcome);
            return at < 0 ? said : PageText.Words.Get("SwingOutcome.Watched", said, PageText.Of("Eye", words[at + 1]));
        }
    }
}
