using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.Text;

/// <summary>The words of all pages but the lane's.</summary>
internal static class PageText
{
    /// <summary>The words, by key.</summary>
    public static HouseText Words { get; } = new(typeof(PageText), "PupilBridge.Console.Text.PageText");

    /// <summary>
    /// The word of a value that comes as one of a closed set of words, such as a status. A word that is not known here is shown as it is,
    /// so that a newer service is readable by an older page.
    /// </summary>
    /// <param name="group">What stands before the point in the key.</param>
    /// <param name="word">The word.</param>
    public static string Of(string group, string? word) => Words.Of(group, word ?? "");
}
