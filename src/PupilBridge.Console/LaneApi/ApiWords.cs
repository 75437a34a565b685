using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.LaneApi;

/// <summary>The words of the lane's part of the web API.</summary>
internal static class ApiWords
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(ApiWords), "PupilBridge.Console.Text.LaneApi");
}
