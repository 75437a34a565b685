using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>Whether a letter of PERRLA may be written.</summary>
public enum LetterClaim
{
    /// <summary>It was examined, and it holds.</summary>
    Claimed = 1,

    /// <summary>It was examined, and it does not hold.</summary>
    NotMet = 2,

    /// <summary>It was examined, and what was found does not decide it.</summary>
    CannotTell = 3,

    /// <summary>It was looked for and could not be seen.</summary>
    CouldNotSee = 4,

    /// <summary>It was not examined.</summary>
    NotExamined = 5,

    /// <summary>The state of an eye, or the fixation, makes it unreliable.</summary>
    Unreliable = 6,

    /// <summary>It holds by the later answer, and not by what another person said and nobody took back.</summary>
    Contradicted = 7,
}

/// <summary>
/// The letters of PERRLA (pupils equal, round, reactive to light and accommodation; common practice), claimed one by one.
/// Nothing that was not examined is ever claimed.
/// </summary>
/// <param name="Pupils">P: both pupils were measured.</param>
/// <param name="Equal">E: the sizes in both lights surely differ by at most the limit in use.</param>
/// <param name="Round">The first R: both shapes were judged round.</param>
/// <param name="ReactiveToLight">RL: both direct responses reach the profile's minimum.</param>
/// <param name="Accommodation">A: the near response was tested and is present in both eyes.</param>
public sealed record Perrla(
    LetterClaim Pupils,
    LetterClaim Equal,
    LetterClaim Round,
    LetterClaim ReactiveToLight,
    LetterClaim Accommodation
)
{
    /// <summary>Claims the letters for an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>The claims.</returns>
    public static Perrla Of(Exam exam, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return new(
            ClaimPupils(exam),
            ClaimEqual(exam, corrections),
            ClaimRound(exam),
            ClaimLight(exam),
            ClaimNear(exam)
        );
    }

    /// <summary>
    /// The letters: <c>PERRLA</c> where all are claimed, <c>PERRL</c> where all but the last are; otherwise a hyphen stands
    /// for each letter that is not claimed. Empty where none is.
    /// </summary>
    public string Letters
    {
        get
        {
            var letters = string.Concat(
                Is(Pupils, "P"),
                Is(Equal, "E"),
                Is(Round, "R"),
                Is(ReactiveToLight, "RL"),
                Accommodation == LetterClaim.Claimed ? "A" : ""
            );
            return letters.Trim('-').Length == 0 ? "" : letters.TrimEnd('-');
        }
    }

    private static string Is(LetterClaim claim, string letters) =>
        claim == LetterClaim.Claimed ? letters : new string('-', letters.Length);

    private static LetterClaim ClaimPupils(Exam exam)
    {
        bool Measured(Eye eye) => exam.Captures.Any(c => c.Eye == eye) && !ExamConditions.IsHidden(exam, eye);
        return Measured(Eye.Right) && Measured(Eye.Left) ? LetterClaim.Claimed : LetterClaim.NotExamined;
    }

    private static LetterClaim ClaimEqual(Exam exam, PerEye<ICorrection>? corrections)
    {
        var bright = SizeEquality.Of(exam, RoomLight.Bright, corrections);
        var dim = SizeEquality.Of(exam, RoomLight.Dim, corrections);
        if (bright.Verdict == LimitVerdict.Above || dim.Verdict == LimitVerdict.Above)
            return LetterClaim.NotMet;
        if (bright.Verdict == LimitVerdict.Within && dim.Verdict == LimitVerdict.Within)
            return LetterClaim.Claimed;
        EqualityObstacle[] obstacles = [bright.Obstacle, dim.Obstacle];
        if (obstacles.Contains(EqualityObstacle.NotBothMeasured))
            return LetterClaim.NotExamined;
        var isUnreliable =
            obstacles.Contains(EqualityObstacle.EyeStatus) || obstacles.Contains(EqualityObstacle.NearFixation);
        return isUnreliable ? LetterClaim.Unreliable : LetterClaim.CannotTell;
    }

    private static LetterClaim ClaimRound(Exam exam)
    {
        PupilShape? Shape(Eye eye) => (CurrentJudgements.Shape(exam, eye)?.Judgement as ShapeJudgement)?.Shape;
        var (right, left) = (Shape(Eye.Right), Shape(Eye.Left));
        if (right == PupilShape.NotRound || left == PupilShape.NotRound)
            return LetterClaim.NotMet;
        if (right is null || left is null)
            return LetterClaim.NotExamined;
        if (right == PupilShape.CouldNotSee || left == PupilShape.CouldNotSee)
            return LetterClaim.CouldNotSee;
        if (EyeEffects.OnShape(exam, Eye.Right) || EyeEffects.OnShape(exam, Eye.Left))
            return LetterClaim.Unreliable;
        return IsDenied<ShapeJudgement>(exam, CurrentJudgements.Shape, said => said.Shape == PupilShape.Round)
            ? LetterClaim.Contradicted
            : LetterClaim.Claimed;
    }

    private static LetterClaim ClaimLight(Exam exam)
    {
        var right = CurrentJudgements.Direct(exam, Eye.Right);
        var left = CurrentJudgements.Direct(exam, Eye.Left);
        var claim = ClaimGrades(exam, Direct(right), Direct(left), exam.Profile.Chart.MinimumDirectGrade);
        if (claim != LetterClaim.Claimed)
            return claim;
        if (right?.Fixation == Fixation.Near || left?.Fixation == Fixation.Near)
            return LetterClaim.Unreliable;
        var least = Least(exam.Profile.Chart.MinimumDirectGrade);
        return IsDenied<DirectResponse>(exam, CurrentJudgements.Direct, said => said.Grade.HalfSteps >= least)
            ? LetterClaim.Contradicted
            : LetterClaim.Claimed;
    }

    private static LetterClaim ClaimNear(Exam exam)
    {
        Grade? Near(Eye eye) => (CurrentJudgements.Near(exam, eye)?.Judgement as NearResponse)?.Grade;
        var claim = ClaimGrades(exam, Near(Eye.Right), Near(Eye.Left), exam.Profile.Chart.MinimumNearGrade);
        var least = Least(exam.Profile.Chart.MinimumNearGrade);
        return
            claim == LetterClaim.Claimed
            && IsDenied<NearResponse>(exam, CurrentJudgements.Near, said => said.Grade.HalfSteps >= least)
            ? LetterClaim.Contradicted
            : claim;
    }

    /// <summary>Whether another person's answer of either eye, which was not taken back, does not bear the claim out.</summary>
    private static bool IsDenied<T>(Exam exam, Func<Exam, Eye, JudgementRecord?> current, Func<T, bool> bearsOut)
        where T : Judgement =>
        new[] { Eye.Right, Eye.Left }
            .Select(eye => current(exam, eye))
            .OfType<JudgementRecord>()
            .SelectMany(stands => Contradictions.Others(exam, stands))
            .Any(other => other.Judgement is T said && !bearsOut(said));

    // A minimum of nothing would claim what is absent: at least half a step must be there.
    private static int Least(Grade minimum) => Math.Max(1, minimum.HalfSteps ?? Grade.MaxHalfSteps);

    private static Grade? Direct(JudgementRecord? record) => (record?.Judgement as DirectResponse)?.Grade;

    private static LetterClaim ClaimGrades(Exam exam, Grade? right, Grade? left, Grade minimum)
    {
        var least = Least(minimum);
        if (right?.HalfSteps < least || left?.HalfSteps < least)
            return LetterClaim.NotMet;
        if (right is not { } r || left is not { } l)
            return LetterClaim.NotExamined;
        if (!r.WasSeen || !l.WasSeen)
            return LetterClaim.CouldNotSee;
        var isDoubtful = EyeEffects.OnResponse(exam, Eye.Right) || EyeEffects.OnResponse(exam, Eye.Left);
        return isDoubtful ? LetterClaim.Unreliable : LetterClaim.Claimed;
    }
}
