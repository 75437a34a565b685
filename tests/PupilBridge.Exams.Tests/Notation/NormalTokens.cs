using System.Text.RegularExpressions;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Notation;

/// <summary>
/// Reads a chart text as a colleague would, token by token, and holds each token that calls something normal, or gives a value, against
/// the facts of an exam: the captures, stimuli and judgements themselves, not the views that the chart is made of.
/// </summary>
internal static partial class NormalTokens
{
    /// <summary>The tokens by what they claim.</summary>
    public static readonly string[] Kinds =
    [
        "P",
        "E",
        "R",
        "RL",
        "A",
        "size",
        "round",
        "direct",
        "near",
        "consensual",
        "no RAPD",
        "alike",
        "timely",
        "sizes alike",
    ];

    /// <summary>Every claim of a chart text, with whether the exam's facts bear it.</summary>
    /// <param name="lines">The chart text, of any length.</param>
    /// <param name="exam">The exam.</param>
    public static IEnumerable<(string Kind, bool WasExamined)> Of(IEnumerable<string> lines, Exam exam)
    {
        var all = lines.ToArray();
        foreach (var claim in Letters(all[0].Split(' ')[0], exam))
            yield return claim;
        foreach (var line in all)
        {
            foreach (var claim in OfLine(line, exam))
                yield return claim;
        }
    }

    /// <summary>Words that no chart text may hold, whatever was examined.</summary>
    [GeneratedRegex(
        @"\b(normal|healthy|unsuspicious|negative|reassuring|ok|wnl|nad|intact|unremarkable|within normal limits)\b",
        RegexOptions.IgnoreCase
    )]
    public static partial Regex Never();

    private static IEnumerable<(string, bool)> Letters(string text, Exam exam)
    {
        if (text.EndsWith(':'))
            yield break; // "PERRLA: no letter claimed"
        bool Claims(int at, string letters) => text.AsSpan(Math.Min(at, text.Length)).StartsWith(letters);
        if (Claims(0, "P"))
            yield return ("P", Both(eye => exam.Captures.Any(c => c.Eye == eye)));
        if (Claims(1, "E"))
            yield return ("E", Both(eye => Sized(exam, eye, RoomLight.Bright) && Sized(exam, eye, RoomLight.Dim)));
        if (Claims(2, "R"))
            yield return ("R", Both(eye => Round(exam, eye)));
        if (Claims(3, "RL"))
            yield return ("RL", Both(eye => Direct(exam, eye)));
        if (Claims(5, "A"))
            yield return ("A", Both(eye => Near(exam, eye)));
    }

    private static IEnumerable<(string, bool)> OfLine(string line, Exam exam)
    {
        foreach (var (eye, what, value) in EyeTokens.Of(line).Where(said => EyeTokens.IsValue(said.Value)))
        {
            foreach (var claim in OfEye(exam, eye, what, value))
                yield return claim;
        }

        foreach (var claim in OfSwinging(EyeTokens.SwingingOf(line), exam))
            yield return claim;

        if (line.EndsWith("; timely.", StringComparison.Ordinal))
            yield return ("timely", exam.Stimuli.Any(s => s.End == StimulusEnd.Complete));
        if (line.StartsWith("Found: The size difference changes from bright to dim", StringComparison.Ordinal))
        {
            var all = Both(eye => Sized(exam, eye, RoomLight.Bright) && Sized(exam, eye, RoomLight.Dim));
            yield return ("sizes alike", all);
        }
    }

    private static IEnumerable<(string, bool)> OfEye(Exam exam, Eye eye, string what, string value)
    {
        switch (what)
        {
            case "dim→bright":
                yield return ("size", Sized(exam, eye, RoomLight.Bright) && Sized(exam, eye, RoomLight.Dim));
                break;
            case "dim":
                yield return ("size", Sized(exam, eye, RoomLight.Dim));
                break;
            case "bright":
                yield return ("size", Sized(exam, eye, RoomLight.Bright));
                break;
            case "shape" when value == "round":
                yield return ("round", Round(exam, eye));
                break;
            case "direct":
                yield return ("direct", Direct(exam, eye));
                break;
            case "near":
                yield return ("near", Near(exam, eye));
                break;
            case "consensual":
                yield return (
                    "consensual",
                    Judged<ConsensualResponse>(exam, j => j.Lit == eye.Fellow() && j.Grade.WasSeen)
                );
                break;
            default:
                break;
        }
    }

    private static IEnumerable<(string, bool)> OfSwinging(string text, Exam exam)
    {
        var names = text[(text.IndexOf('(', StringComparison.Ordinal) + 1)..].Split(" dwell")[0];
        if (text.Contains("no RAPD seen", StringComparison.Ordinal))
            yield return ("no RAPD", names.Split(" and ").All(name => SwungAlike(exam, name) && WasTimely(exam, name)));
        else if (text.Contains("alike", StringComparison.Ordinal))
            yield return ("alike", Judged<SwingOutcome>(exam, j => j.Finding == SwingFinding.Alike));
    }

    private static Block Dwell(string name) => name == "short" ? Block.SwingShort : Block.SwingLong;

    private static bool SwungAlike(Exam exam, string name) =>
        Judged<SwingOutcome>(exam, j => j.Dwell == Dwell(name) && j.Finding == SwingFinding.Alike);

    private static bool WasTimely(Exam exam, string name) =>
        exam.Stimuli.Count(s =>
            s.Block == Dwell(name) && s.End == StimulusEnd.Complete && s.DwellVerdict == TimingVerdict.Within
        ) >= 5;

    private static bool Both(Func<Eye, bool> holds) => holds(Eye.Right) && holds(Eye.Left);

    private static bool Sized(Exam exam, Eye eye, RoomLight light) =>
        exam.Captures.Any(c => c.Eye == eye && c.Light == light);

    private static bool Round(Exam exam, Eye eye) =>
        Judged<ShapeJudgement>(exam, j => j.Eye == eye && j.Shape == PupilShape.Round);

    private static bool Direct(Exam exam, Eye eye) =>
        Judged<DirectResponse>(exam, j => j.Eye == eye && j.Grade.WasSeen);

    private static bool Near(Exam exam, Eye eye) => Judged<NearResponse>(exam, j => j.Eye == eye && j.Grade.WasSeen);

    private static bool Judged<T>(Exam exam, Func<T, bool> condition)
        where T : Judgement => exam.Judgements.Any(j => j.WithdrawnBy is null && j.Judgement is T t && condition(t));
}
