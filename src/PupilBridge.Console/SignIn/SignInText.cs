using PupilBridge.Clinic.Text;

namespace PupilBridge.Console.SignIn;

/// <summary>The words about signing in and about people.</summary>
internal static class SignInText
{
    /// <summary>The words, by key.</summary>
    public static HouseText Words { get; } = new(typeof(SignInText), "PupilBridge.Console.Text.SignInText");
}
