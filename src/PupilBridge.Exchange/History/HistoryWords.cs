using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.History;

/// <summary>The words of histories.</summary>
internal static class HistoryWords
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(HistoryWords), "PupilBridge.Exchange.Text.History");
}
