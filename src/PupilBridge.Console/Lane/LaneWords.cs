using System.Text.Json;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.Lane;

/// <summary>The words of the lane's pages, for the frame and for the script.</summary>
internal static class LaneWords
{
    /// <summary>All of them.</summary>
    public static HouseText All { get; } = new(typeof(LaneWords), "PupilBridge.Console.Text.LaneText");

    /// <summary>All of them as a JSON object by key, with nothing in it that could end a script element.</summary>
    public static string AsJson() =>
        JsonSerializer.Serialize(
            All.Keys.Order(StringComparer.Ordinal).ToDictionary(key => key, key => All[key], StringComparer.Ordinal)
        );
}
