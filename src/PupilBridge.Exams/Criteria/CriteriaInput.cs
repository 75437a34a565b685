using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.ExpectedSizes;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria;

/// <summary>What is known of the site beside the exam.</summary>
public sealed record SiteFacts
{
    /// <summary>The light that eyes are adapted to when the room is bright, as measured at the site; null if nobody measured it.</summary>
    public AdaptingField? Bright { get; init; }

    /// <summary>The same when the room is dim.</summary>
    public AdaptingField? Dim { get; init; }

    /// <summary>
    /// How old the last check of the instrument's lamp balance was at the exam, in days, where the exam itself knows of none; null if
    /// nothing is known.
    /// </summary>
    public int? LampBalanceAgeDays { get; init; }

    /// <summary>Nothing known.</summary>
    public static SiteFacts Unknown { get; } = new();

    /// <summary>The measured light.</summary>
    /// <param name="light">Bright or dim.</param>
    /// <returns>The field; null if nobody measured it.</returns>
    public AdaptingField? Field(RoomLight light) => light == RoomLight.Bright ? Bright : Dim;
}

/// <summary>What the criteria read. Nothing of it is changed by them.</summary>
public sealed record CriteriaInput
{
    /// <summary>The exam.</summary>
    public required Exam Exam { get; init; }

    /// <summary>
    /// Other exams of the same patient, in any order. Those of another patient, without one, not made ready, or not older than the
    /// exam are passed over.
    /// </summary>
    public IReadOnlyList<Exam> Earlier { get; init; } = [];

    /// <summary>
    /// All numbers of the exam's patient, where several are merged into one person: exams of any of them are the same patient's. Empty
    /// for the exam's own number alone.
    /// </summary>
    public IReadOnlyList<PatientId> SamePerson { get; init; } = [];

    /// <summary>Other corrections of both scales than those of each exam's own calibration; null for those.</summary>
    public PerEye<ICorrection>? Corrections { get; init; }

    /// <summary>The corrections of the exam looked at; null if it has none.</summary>
    public PerEye<ICorrection>? CorrectionsOfExam => Corrections ?? Exam.Corrections;

    /// <summary>What is known of the site.</summary>
    public SiteFacts Site { get; init; } = SiteFacts.Unknown;

    /// <summary>The patient's age at the exam, in years; null if it is not known.</summary>
    public double? AgeYears { get; init; }

    /// <summary>The neutral-density bracket, if one was run; null for the exam's own.</summary>
    public DensityBracket? Bracket { get; init; }

    /// <summary>The grade on Bell's scale, if one was given; null for the exam's own.</summary>
    public BellGrading? Bell { get; init; }

    /// <summary>The limits in use; null for the defaults with the exam's own profile.</summary>
    public CriteriaLimits? Limits { get; init; }

    /// <summary>
    /// How old the last check of the lamps' balance was at the exam, in days: of the one that the exam knows, else of the site's; null if
    /// they were never checked.
    /// </summary>
    public int? LampBalanceAgeDays => Exam.LampBalance?.AgeDays(Exam.Opening.When.At) ?? Site.LampBalanceAgeDays;

    /// <summary>The bracket that counts.</summary>
    public DensityBracket? BracketInUse => Bracket ?? DefectGrades.Bracket(Exam)?.Bracket;

    /// <summary>The grade on Bell's scale that counts.</summary>
    public BellGrading? BellInUse =>
        Bell ?? (DefectGrades.Bell(Exam) is { } given ? new BellGrading(given.Eye, given.Grade) : null);

    /// <summary>The limits in use.</summary>
    public CriteriaLimits LimitsInUse => Limits ?? CriteriaLimits.For(Exam.Profile);
}
