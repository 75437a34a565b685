using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Sending;

/// <summary>The words about sending.</summary>
internal static class SendingText
{
    private static readonly HouseText Words = new(typeof(SendingText), "PupilBridge.Exchange.Text.Sending");

    /// <summary>The text of a key with values put in their places.</summary>
    public static string Get(string key, params object?[] values) => Words.Get(key, values);
}
