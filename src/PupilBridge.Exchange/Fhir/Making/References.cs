using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>References to resources of the same bundle.</summary>
internal static class References
{
    /// <summary>A reference to the same; two resources never share one object.</summary>
    public static ResourceReference Again(this ResourceReference reference) => (ResourceReference)reference.DeepCopy();
}
