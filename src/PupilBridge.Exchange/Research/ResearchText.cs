using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Research;

/// <summary>The words about exports for research.</summary>
internal static class ResearchText
{
    /// <summary>The words, by key.</summary>
    public static HouseText Words { get; } = new(typeof(ResearchText), "PupilBridge.Exchange.Text.Research");
}
