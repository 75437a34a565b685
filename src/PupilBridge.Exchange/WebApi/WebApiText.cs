using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.WebApi;

/// <summary>The words of the web API.</summary>
internal static class WebApiText
{
    /// <summary>The words, by key.</summary>
    public static HouseText Words { get; } = new(typeof(WebApiText), "PupilBridge.Exchange.Text.WebApi");
}
