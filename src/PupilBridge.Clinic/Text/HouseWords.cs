using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Text;

/// <summary>The trade's words for single values, for people, in the language of the house.</summary>
internal static class HouseWords
{
    /// <summary>OD or OS with the side in words.</summary>
    public static string Of(Eye eye) => ClinicText.House.Of("Eye", eye);

    /// <summary>The name of a step.</summary>
    public static string Of(ExamStep step) => ClinicText.House.Of("Step", step);

    /// <summary>The name of a step, to stand within a sentence.</summary>
    public static string Within(ExamStep step) => ClinicText.House.Of("StepWithin", step);

    /// <summary>The room light as a sentence of its own.</summary>
    public static string Of(RoomLight light) => ClinicText.House.Of("RoomLight", light);
}
