using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir.Checks;
using PupilBridge.Exchange.Fhir.Making;

namespace PupilBridge.Exchange.Fhir;

/// <summary>
/// From a record to a FHIR R4 bundle: a pure function of the record and the clinic's settings. Every bundle has passed
/// <see cref="BundleChecks"/> before it is handed out.
/// </summary>
public static class FhirBundles
{
    /// <summary>The record as a document: what was signed, or the draft, to be kept or handed over as a whole.</summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="settings">The clinic's settings.</param>
    /// <exception cref="RecordNotSentException">It was set aside, or contradicts itself; the message says what to do.</exception>
    public static Bundle Document(OutgoingRecord outgoing, FhirSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Sendable.Check(outgoing);
        var (made, devices, report) = Make(outgoing, settings);
        var cover = Covers.Of(made, devices, report);
        var id = NamedIds.Of(settings.Of("record"), made.Key);
        var members = made.Members.Prepend(new BundleMember(id, cover, ""));
        var bundle = new Bundle
        {
            Identifier = made.Identify("record", made.Key),
            Type = Bundle.BundleType.Document,
            Timestamp = FhirTimes.Of(outgoing),
            Entry = [.. members.Select(InDocument)],
        };
        return BundleChecks.Checked(bundle, outgoing, settings);
    }

    /// <summary>
    /// The signed record as a transaction: each resource is created unless the server has it by its identifier, so that a repeat makes
    /// no second copy. An amended record is the same report: its report and observations take the place of those there, and what it
    /// does not say any more is marked as entered in error.
    /// </summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="settings">The clinic's settings.</param>
    /// <param name="earlier">The versions before it that may be at the server; null for none.</param>
    /// <exception cref="RecordNotSentException">
    /// It is not signed, belongs to nobody, was set aside, or contradicts itself; the message says what to do.
    /// </exception>
    public static Bundle Transaction(
        OutgoingRecord outgoing,
        FhirSettings settings,
        IReadOnlyList<OutgoingRecord>? earlier = null
    )
    {
        ArgumentNullException.ThrowIfNull(settings);
        Sendable.CheckAsResult(outgoing);
        var made = Make(outgoing, settings).Made;
        var dropped = Dropped.Of(made, (earlier ?? []).Select(before => Make(before, settings).Made));
        var bundle = new Bundle
        {
            Type = Bundle.BundleType.Transaction,
            Entry = [.. made.Members.Concat(dropped).Select(member => InTransaction(member, made.IsAmended))],
        };
        return BundleChecks.Checked(bundle, outgoing, settings);
    }

    private static (RecordBundle Made, Devices Devices, ResourceReference Report) Make(
        OutgoingRecord outgoing,
        FhirSettings settings
    )
    {
        var bundle = new RecordBundle(outgoing, settings);
        bundle.Subject = Patients.Add(bundle);
        var devices = Devices.Add(bundle);
        var maker = new ObservationMaker(bundle);
        ResourceReference[] members =
        [
            .. new SizeObservations(bundle, maker, devices).Add(),
            .. new JudgementObservations(bundle, maker).Add(),
            .. new SwingObservations(bundle, maker).Add(),
            .. new EyeStatusObservations(bundle, maker).Add(),
        ];
        var panels = new Panels(bundle, maker);
        ResourceReference[] findings = [.. new FindingObservations(bundle, maker).Add()];
        ResourceReference[] results = [panels.Exam(members, devices), .. panels.Findings(findings)];
        var report = new Reports(bundle).Add(results);
        new Signatures(bundle).Add(report, results);
        return (bundle, devices, report);
    }

    private static Bundle.EntryComponent InDocument(BundleMember member)
    {
        member.Resource.Id = member.Id;
        return new Bundle.EntryComponent { FullUrl = member.FullUrl, Resource = member.Resource };
    }

    private static Bundle.EntryComponent InTransaction(BundleMember member, bool isAmended) =>
        new()
        {
            FullUrl = member.FullUrl,
            Resource = member.Resource,
            Request =
                isAmended && member.Resource is (Observation or DiagnosticReport)
                    ? new Bundle.RequestComponent
                    {
                        Method = Bundle.HTTPVerb.PUT,
                        Url = $"{member.Resource.TypeName}?{member.Condition}",
                    }
                    : new Bundle.RequestComponent
                    {
                        Method = Bundle.HTTPVerb.POST,
                        Url = member.Resource.TypeName,
                        IfNoneExist = member.Condition,
                    },
        };
}
