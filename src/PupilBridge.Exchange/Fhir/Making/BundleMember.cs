using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>A resource of a bundle before it is known what kind of bundle it becomes.</summary>
/// <param name="Id">Its id within the bundle, made from its identifier, so that the same record always gives the same one.</param>
/// <param name="Resource">The resource.</param>
/// <param name="Condition">The search that finds it on a server that has it already.</param>
internal sealed record BundleMember(string Id, Resource Resource, string Condition)
{
    public string FullUrl => $"urn:uuid:{Id}";
}
