using System.Globalization;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>The trade's words for single values.</summary>
public static class Words
{
    /// <summary>What stands where nothing was examined.</summary>
    public const string NotExamined = "not examined";

    /// <summary>What stands where it was looked for and could not be seen.</summary>
    public const string CouldNotSee = "could not be seen";

    /// <summary>OD or OS with the side in words, since the abbreviations are easily mistaken.</summary>
    /// <param name="eye">The eye.</param>
    /// <returns><c>OD (right)</c> or <c>OS (left)</c>.</returns>
    public static string Of(Eye eye) => eye == Eye.Right ? "OD (right)" : "OS (left)";

    /// <summary>A grade as charts have it (<c>3+</c>, <c>2.5+</c>, <c>0</c>).</summary>
    /// <param name="grade">The grade; null if it was not examined.</param>
    /// <returns>The grade, or why there is none.</returns>
    public static string Of(Grade? grade)
    {
        if (grade is not { } given)
            return NotExamined;
        if (!given.WasSeen)
            return CouldNotSee;
        return given.HalfSteps == 0 ? "0" : $"{given}+";
    }

    /// <summary>A pupil's form.</summary>
    /// <param name="shape">The form; null if it was not examined.</param>
    /// <returns>The form in words.</returns>
    public static string Of(PupilShape? shape) =>
        shape switch
        {
            PupilShape.Round => "round",
            PupilShape.NotRound => "not round",
            PupilShape.CouldNotSee => CouldNotSee,
            _ => NotExamined,
        };

    /// <summary>A light in words.</summary>
    /// <param name="light">The light.</param>
    /// <returns><c>bright</c> or <c>dim</c>.</returns>
    public static string Of(RoomLight light) => light == RoomLight.Bright ? "bright" : "dim";

    /// <summary>A diameter to a tenth of a millimetre, as charts have it (common practice).</summary>
    /// <param name="diameter">The diameter.</param>
    /// <returns>The number without its unit.</returns>
    public static string Of(Diameter diameter) => Tenths(diameter.Millimetres);

    /// <summary>An expanded uncertainty to a hundredth of a millimetre.</summary>
    /// <param name="millimetres">The uncertainty, in mm.</param>
    /// <returns>The number without its unit.</returns>
    public static string Uncertainty(double millimetres) =>
        Math.Round((decimal)millimetres, 2, MidpointRounding.AwayFromZero)
            .ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A length to a tenth of a millimetre.</summary>
    /// <param name="millimetres">The length, in mm.</param>
    /// <returns>The number without its unit.</returns>
    public static string Tenths(double millimetres) =>
        Math.Round((decimal)millimetres, 1, MidpointRounding.AwayFromZero)
            .ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>A step in words.</summary>
    /// <param name="step">The step.</param>
    /// <returns>The step in words.</returns>
    public static string Of(ExamStep step) =>
        step switch
        {
            ExamStep.SizesBright => "sizes in bright light",
            ExamStep.SizesDim => "sizes in dim light",
            ExamStep.Shape => "shape",
            ExamStep.Direct => "direct response",
            ExamStep.SwingShort => "swinging, short dwell",
            ExamStep.SwingLong => "swinging, long dwell",
            ExamStep.Near => "near response",
            _ => "consensual response",
        };

    /// <summary>The states of an eye in words.</summary>
    /// <param name="conditions">The states.</param>
    /// <returns>The words, separated by commas; <c>unremarkable</c> if someone looked and nothing holds.</returns>
    public static string Of(EyeConditions conditions)
    {
        (EyeConditions Condition, string Word)[] words =
        [
            (EyeConditions.Prosthesis, "prosthesis"),
            (EyeConditions.Patch, "patch"),
            (EyeConditions.Drops, "drops"),
            (EyeConditions.SurgeryOrInjury, "surgery or injury"),
            (EyeConditions.OpaqueCornea, "cornea not clear"),
            (EyeConditions.LidDown, "lid down"),
        ];
        var said = words.Where(w => conditions.HasFlag(w.Condition)).Select(w => w.Word).ToArray();
        return said.Length == 0 ? "unremarkable" : string.Join(", ", said);
    }
}
