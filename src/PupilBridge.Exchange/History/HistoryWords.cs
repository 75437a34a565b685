using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.History;

/// <summary>The words of histories.</summary>
internal static class HistoryWords
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(HistoryWords), "PupilBridge.Exchange.Text.History");

    /// <summary>The word for one of a closed set of words; one that is not known stands as it is.</summary>
    /// <param name="group">What stands before the point in the key.</param>
    /// <param name="word">The word.</param>
    public static string Of(string group, string word) =>
        Text.Keys.Contains($"{group}.{word}") ? Text[$"{group}.{word}"] : word;
}
