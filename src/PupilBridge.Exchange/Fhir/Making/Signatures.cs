using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>
/// The provenance of a signed record: who signed what, and by which places of the hash-chained journal that can be checked. It is a
/// sign-off that the journal proves, not a cryptographic signature with a key of the person, and says so.
/// </summary>
/// <param name="bundle">The record's bundle.</param>
internal sealed class Signatures(RecordBundle bundle)
{
    /// <summary>The search parameter by which it is found again: provenance has no identifier in R4, so it bears a tag.</summary>
    public const string Parameter = "_tag";

    // ASTM E1762-95, as FHIR's own value set of signature types lists it.
    private static readonly Coding Verification = new(
        "urn:iso-astm:E1762-95:2013",
        "1.2.840.10065.1.12.1.5",
        "Verification Signature"
    );

    public void Add(ResourceReference report, IEnumerable<ResourceReference> results)
    {
        if (bundle.Outgoing.Signature is not { } signature)
        {
            return;
        }

        var (system, key) = (bundle.Settings.Of("signature"), bundle.Key);
        var provenance = new Provenance
        {
            Meta = new Meta
            {
                Profile = [bundle.Settings.Profile("record-signature")],
                Tag = [new Coding(system, key)],
            },
            Target = [report.Again(), .. results.Select(r => r.Again())],
            Occurred = new FhirDateTime(signature.At),
            Recorded = signature.At,
            Agent = [new() { Who = bundle.Person(signature.Who) }],
            Signature =
            [
                new Signature
                {
                    Type = [(Coding)Verification.DeepCopy()],
                    When = signature.At,
                    Who = bundle.Person(signature.Who),
                },
            ],
            Entity = [.. Entities(signature)],
        };
        bundle.Add(provenance, system, key, Parameter, null);
    }

    private IEnumerable<Provenance.EntityComponent> Entities(RecordSignature signature)
    {
        yield return Entity("record-sha256", signature.Digest, Provenance.ProvenanceEntityRole.Source);
        yield return Entity(
            "journal-entry",
            signature.Sequence.ToString(CultureInfo.InvariantCulture),
            Provenance.ProvenanceEntityRole.Source
        );
        if (bundle.Outgoing.Head is { } head)
        {
            yield return Entity(
                "journal-head",
                string.Create(CultureInfo.InvariantCulture, $"{head.Sequence}/{head.Hash}"),
                Provenance.ProvenanceEntityRole.Source
            );
        }

        if (bundle.Record.PreviousDigest is { } before)
        {
            yield return Entity("record-sha256", before, Provenance.ProvenanceEntityRole.Revision);
        }
    }

    private Provenance.EntityComponent Entity(string kind, string value, Provenance.ProvenanceEntityRole role) =>
        new()
        {
            Role = role,
            What = new ResourceReference
            {
                Identifier = bundle.Identify(kind, value),
                Display = FhirWords.Of(
                    role == Provenance.ProvenanceEntityRole.Revision ? "Entity.before" : $"Entity.{kind}"
                ),
            },
        };
}
