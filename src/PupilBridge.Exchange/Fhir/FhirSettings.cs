using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Fhir;

/// <summary>What a clinic sets about its FHIR records.</summary>
public sealed record FhirSettings
{
    /// <summary>The address under which identifiers stand while a clinic has set none of its own.</summary>
    public const string ExampleHouse = "https://example.org/pupilbridge/house";

    /// <summary>The address under which profiles and code systems stand while none is set.</summary>
    public const string ExampleDefinitions = "https://example.org/pupilbridge/fhir";

    /// <summary>
    /// What the systems of all identifiers of this house begin with. Two houses must never share it, since each numbers its exams and
    /// patients from 1.
    /// </summary>
    public string House { get; init; } = ExampleHouse;

    /// <summary>What the addresses of profiles and code systems begin with.</summary>
    public string Definitions { get; init; } = ExampleDefinitions;

    /// <summary>Which codes of other systems stand beside ours.</summary>
    public CodeMap Codes { get; init; } = CodeMap.Usual;

    /// <summary>Whether identifiers stand under the example address, so that records of two houses could not be told apart.</summary>
    public bool IsExampleHouse => House == ExampleHouse;

    /// <summary>The system of an identifier.</summary>
    /// <param name="kind">Of what, such as <c>patient</c>.</param>
    public string Of(string kind) => $"{House}/{kind}";

    /// <summary>The address of a profile.</summary>
    /// <param name="name">Its name, such as <c>pupil-diameter</c>.</param>
    public string Profile(string name) => $"{Definitions}/StructureDefinition/{name}";

    /// <summary>The address of a code system of ours.</summary>
    /// <param name="name">Its name: <c>pupil-exam</c> or <c>pupil-criteria</c>.</param>
    public string CodeSystem(string name) => $"{Definitions}/CodeSystem/{name}";
}
