using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Records.Forms;

/// <summary>What can be judged and how, for choosing; the values are the words that the desk reads.</summary>
internal static class JudgementChoices
{
    private static readonly string[] Eyes = ["OD", "OS"];
    private static readonly string[] Grades = ["0", "0.5", "1", "1.5", "2", "2.5", "3", "3.5", "4"];
    private static readonly string[] Shapes = ["round", "not-round"];
    private static readonly string[] Outcomes = ["alike", "worse OD", "worse OS"];

    /// <summary>What is judged, of which eye.</summary>
    public static IEnumerable<(string Value, string Words)> Whats =>
        [
            .. OfEyes("shape", "shape"),
            .. OfEyes("direct", "direct"),
            .. OfEyes("consensual", "consensual lit"),
            .. OfEyes("near", "near"),
            ("swing short", PageText.Of("Swing", "short")),
            ("swing long", PageText.Of("Swing", "long")),
            .. OfEyes("slow-to-dilate", "slow-to-dilate"),
        ];

    /// <summary>How it was judged.</summary>
    public static IEnumerable<(string Value, string Words)> Hows =>
        [
            .. Grades.Select(grade => (grade, PageText.Words.Get("Judge.Grade", grade))),
            .. Shapes.Select(shape => (shape, PageText.Of("Shape", shape))),
            .. Outcomes.Select(outcome => (outcome, PageText.Of("SwingOutcome", outcome))),
            (JudgementWords.CouldNotSee, PageText.Of("Shape", JudgementWords.CouldNotSee)),
        ];

    /// <summary>What a judgement takes as its last words: <c>grade</c>, <c>shape</c>, <c>outcome</c> or <c>nothing</c>.</summary>
    /// <param name="what">What is judged.</param>
    public static string TakesOf(string what) =>
        what.Split(' ')[0] switch
        {
            "shape" => "shape",
            "swing" => "outcome",
            "slow-to-dilate" => "nothing",
            _ => "grade",
        };

    /// <summary>Whether the two go together.</summary>
    public static bool Fits(string what, string how) =>
        TakesOf(what) switch
        {
            "shape" => how == JudgementWords.CouldNotSee || Shapes.Contains(how),
            "outcome" => how == JudgementWords.CouldNotSee || Outcomes.Contains(how),
            "nothing" => how.Length == 0,
            _ => how == JudgementWords.CouldNotSee || Grades.Contains(how),
        };

    private static IEnumerable<(string Value, string Words)> OfEyes(string kind, string typed) =>
        Eyes.Select(eye =>
            (
                $"{typed} {eye}",
                PageText.Words.Get("Judgement.OfEye", PageText.Of("Kind", kind), PageText.Of("Eye", eye))
            )
        );
}
