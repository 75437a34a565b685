namespace PupilBridge.Configuration;

/// <summary>One setting of the program around the bridge.</summary>
/// <param name="Key">The whole key.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="Default">The value without any setting; may be empty.</param>
/// <param name="Allowed">What is allowed, in words.</param>
/// <param name="Accepts">Whether a value is allowed.</param>
internal sealed record HouseSetting(
    string Key,
    string Meaning,
    string Default,
    string Allowed,
    Func<string?, bool> Accepts
);
