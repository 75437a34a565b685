using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>A code of another system that stands beside one of ours.</summary>
/// <param name="Concept">Our code.</param>
/// <param name="Side">The side that the code itself names; null if it names none.</param>
/// <param name="System">Its system.</param>
/// <param name="Code">The code.</param>
/// <param name="Display">What it says.</param>
/// <param name="Where">Where it was seen in public material.</param>
public sealed record MappedCode(string Concept, Eye? Side, string System, string Code, string Display, string Where);
