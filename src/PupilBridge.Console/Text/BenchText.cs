using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.Text;

/// <summary>The words of the service bench's pages.</summary>
internal static class BenchText
{
    /// <summary>The words, by key.</summary>
    public static HouseText Words { get; } = new(typeof(BenchText), "PupilBridge.Console.Text.BenchText");
}
