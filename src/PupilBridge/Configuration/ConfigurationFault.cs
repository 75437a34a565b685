namespace PupilBridge.Configuration;

/// <summary>One thing that is wrong in the configuration.</summary>
/// <param name="Key">The setting's key as it is written, or the file's path where the whole file cannot be read.</param>
/// <param name="Message">Key, value and what is allowed, as one sentence for a person.</param>
/// <param name="Source">Which file, variable or option the value came from.</param>
internal sealed record ConfigurationFault(string Key, string Message, string Source);
