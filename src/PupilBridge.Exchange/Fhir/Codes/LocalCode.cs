namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>A code of our own system.</summary>
/// <param name="Code">The code: lower case with hyphens, never changed.</param>
/// <param name="Display">What it says, in English.</param>
/// <param name="Definition">What it means.</param>
public sealed record LocalCode(string Code, string Display, string Definition);
