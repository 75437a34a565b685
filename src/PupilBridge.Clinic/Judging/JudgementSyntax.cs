using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Judging;

/// <summary>
/// Judgements as people type them, such as <c>direct OD 3</c>. What is printed can be read again; words may be typed in capitals
/// or not, and both eyes may be judged alike in one line.
/// </summary>
/// <remarks>
/// <code>
/// shape EYES round | not-round | could-not-see          shape both round
/// direct EYES GRADE                                     direct OD 3
/// consensual lit EYES GRADE                             consensual lit OD 2     (light in OD, the pupil of OS watched)
/// near EYES GRADE                                       near OS 2.5
/// swing short|long alike | worse EYE | could-not-see    swing long worse OD     (at the end, if only one was watched: pupil EYE)
/// slow-to-dilate EYES                                   slow-to-dilate OS
/// could-not-see WHAT                                    could-not-see direct OD
///
/// EYES = OD | OS | both      GRADE = 0 to 4 in half steps, or could-not-see
/// </code>
/// </remarks>
public static class JudgementSyntax
{
    /// <summary>What can be typed, one line each, for help texts.</summary>
    public static IReadOnlyList<string> Forms { get; } =
    [
        "shape OD|OS|both round|not-round|could-not-see",
        "direct OD|OS|both 0..4|could-not-see",
        "consensual lit OD|OS|both 0..4|could-not-see",
        "near OD|OS|both 0..4|could-not-see",
        "swing short|long alike|worse OD|worse OS|could-not-see [pupil OD|OS]",
        "slow-to-dilate OD|OS|both",
    ];

    /// <summary>Reads one line.</summary>
    /// <param name="text">What was typed.</param>
    /// <returns>One judgement, or two if both eyes were judged alike.</returns>
    /// <exception cref="EntryProblemException">It cannot be understood; the message says where and what is possible there.</exception>
    public static IReadOnlyList<Judgement> Read(string text)
    {
        var words = new TypedWords(text);
        if (words.TryTake(ClinicWords.CouldNotSee) && words.HasMore)
        {
            words.Append(ClinicWords.CouldNotSee);
        }

        var kind = words.Take("what is judged", "shape, direct, consensual, near, swing or slow-to-dilate");
        IReadOnlyList<Judgement> judgements = kind.ToUpperInvariant() switch
        {
            "SHAPE" => Shape(words),
            "DIRECT" => Direct(words),
            "CONSENSUAL" => Consensual(words),
            "NEAR" => Near(words),
            "SWING" => [Swing(words)],
            "SLOW-TO-DILATE" => [.. Eyes(words).Select(eye => new SlowToDilate(eye))],
            _ => throw new EntryProblemException(
                $"'{kind}' is nothing that is judged. What can be typed: {string.Join("; ", Forms)}."
            ),
        };
        words.RequireEnd();
        return judgements;
    }

    /// <summary>Writes a judgement so that <see cref="Read"/> reads it back.</summary>
    /// <exception cref="ArgumentException">It is of a kind that has no text.</exception>
    public static string Write(Judgement judgement) =>
        judgement switch
        {
            ShapeJudgement shape => $"shape {ClinicWords.Eyes[shape.Eye]} {ClinicWords.Shapes[shape.Shape]}",
            DirectResponse direct => $"direct {ClinicWords.Eyes[direct.Eye]} {Write(direct.Grade)}",
            ConsensualResponse other => $"consensual lit {ClinicWords.Eyes[other.Lit]} {Write(other.Grade)}",
            NearResponse near => $"near {ClinicWords.Eyes[near.Eye]} {Write(near.Grade)}",
            SlowToDilate slow => $"slow-to-dilate {ClinicWords.Eyes[slow.Eye]}",
            SwingOutcome swing =>
                $"swing {ClinicWords.Dwells[swing.Dwell]} {Write(swing.Finding)}{Pupil(swing.Observed)}",
            _ => throw new ArgumentException($"There is no text for {judgement?.GetType().Name}.", nameof(judgement)),
        };

    private static IReadOnlyList<Judgement> Shape(TypedWords words)
    {
        var eyes = Eyes(words);
        var word = words.Take("the shape", string.Join(", ", ClinicWords.Shapes.All));
        var shape = ClinicWords.Shapes.Read(word);
        return [.. eyes.Select(eye => new ShapeJudgement(eye, shape))];
    }

    private static IReadOnlyList<Judgement> Direct(TypedWords words)
    {
        var eyes = Eyes(words);
        var grade = GradeOf(words);
        return [.. eyes.Select(eye => new DirectResponse(eye, grade))];
    }

    private static IReadOnlyList<Judgement> Near(TypedWords words)
    {
        var eyes = Eyes(words);
        var grade = GradeOf(words);
        return [.. eyes.Select(eye => new NearResponse(eye, grade))];
    }

    private static IReadOnlyList<Judgement> Consensual(TypedWords words)
    {
        if (!words.TryTake("lit"))
        {
            throw new EntryProblemException(
                "A consensual response names the eye that was lit: 'consensual lit OD 2' is light in OD with the pupil of OS watched."
            );
        }

        var lit = Eyes(words);
        var grade = GradeOf(words);
        return [.. lit.Select(eye => new ConsensualResponse(eye, eye.Fellow(), grade))];
    }

    private static SwingOutcome Swing(TypedWords words)
    {
        var dwell = ClinicWords.Dwells.Read(words.Take("the dwell", "short or long"));
        var outcome = words.Take("the outcome", "alike, worse OD, worse OS or could-not-see");
        var finding = outcome.ToUpperInvariant() switch
        {
            "ALIKE" => SwingFinding.Alike,
            "WORSE" => SwingFindings.Worse(ClinicWords.Eyes.Read(words.Take("the worse eye", "OD or OS"))),
            "COULD-NOT-SEE" or "?" => SwingFinding.CouldNotSee,
            _ => throw new EntryProblemException(
                $"'{outcome}' is no outcome of swinging; give alike, worse OD, worse OS or could-not-see."
            ),
        };
        if (!words.TryTake("pupil"))
        {
            return new SwingOutcome(dwell, finding, PupilsObserved.Both);
        }

        var watched = words.Take("the pupil that was watched", "OD, OS or both");
        return new SwingOutcome(dwell, finding, Observed(watched));
    }

    private static PupilsObserved Observed(string word) =>
        IsBoth(word) ? PupilsObserved.Both
        : ClinicWords.Eyes.Read(word) == Eye.Right ? PupilsObserved.Right
        : PupilsObserved.Left;

    private static Eye[] Eyes(TypedWords words)
    {
        var word = words.Take("the eye", "OD, OS or both");
        return IsBoth(word) ? [Eye.Right, Eye.Left]
            : ClinicWords.Eyes.TryRead(word, out var eye) ? [eye]
            : throw new EntryProblemException($"'{word}' is no eye; give OD, OS or both.");
    }

    private static bool IsBoth(string word) =>
        word.Equals("both", StringComparison.OrdinalIgnoreCase)
        || word.Equals("OU", StringComparison.OrdinalIgnoreCase);

    private static Grade GradeOf(TypedWords words)
    {
        var word = words.Take("the grade", "0 to 4 in half steps, or could-not-see");
        if (word.Equals(ClinicWords.CouldNotSee, StringComparison.OrdinalIgnoreCase))
        {
            return Grade.CouldNotSee;
        }

        return Grade.TryParse(word, out var grade)
            ? grade
            : throw new EntryProblemException(
                $"'{word}' is no grade; give 0, 0.5, 1 … 4 (0 none, 4 brisk and large), or could-not-see."
            );
    }

    private static string Write(Grade grade) => grade.WasSeen ? grade.ToString() : ClinicWords.CouldNotSee;

    private static string Write(SwingFinding finding) =>
        finding switch
        {
            SwingFinding.Alike => "alike",
            SwingFinding.CouldNotSee => ClinicWords.CouldNotSee,
            _ => $"worse {ClinicWords.Eyes[finding.WorseEye()!.Value]}",
        };

    private static string Pupil(PupilsObserved observed) =>
        observed switch
        {
            PupilsObserved.Right => " pupil OD",
            PupilsObserved.Left => " pupil OS",
            _ => "",
        };
}
