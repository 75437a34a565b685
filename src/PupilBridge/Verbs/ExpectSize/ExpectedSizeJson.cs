using System.Text.Json.Serialization;
using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Verbs.ExpectSize;

/// <summary>The expected size as a program reads it, at full precision.</summary>
/// <param name="DiameterMm">The diameter, in mm.</param>
/// <param name="Form">Which form of the formula gave it.</param>
/// <param name="EffectiveFlux">The effective corneal flux density, in cd·m⁻²·deg².</param>
/// <param name="FieldAcrossDeg">How wide a disc of the field's area looks, in degrees.</param>
internal sealed record ExpectedSizeJson(
    [property: JsonPropertyName("diameter_mm")] double DiameterMm,
    [property: JsonPropertyName("form")] ExpectedSizeForm Form,
    [property: JsonPropertyName("effective_flux")] double EffectiveFlux,
    [property: JsonPropertyName("field_across_deg")] double FieldAcrossDeg
);
