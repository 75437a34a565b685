using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>
/// What is looked at in every bundle before it leaves, and what a validator does not look at: check digits, lists of codes and units,
/// that the sides agree, that every value is the record's, that references lead somewhere, that a repeat makes no copy. It reads the
/// bundle anew and shares nothing with what made it.
/// </summary>
public static class BundleChecks
{
    /// <summary>All that is wrong, in words; empty if the bundle may leave.</summary>
    /// <param name="bundle">The bundle.</param>
    /// <param name="outgoing">The record that it is about.</param>
    /// <param name="settings">The clinic's settings.</param>
    public static IReadOnlyList<string> Of(Bundle bundle, OutgoingRecord outgoing, FhirSettings settings)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(outgoing);
        ArgumentNullException.ThrowIfNull(settings);
        var content = BundleContent.Of(bundle);
        return
        [
            .. CodeChecks.Of(content, settings),
            .. ReferenceChecks.Of(content),
            .. ObservationChecks.Of(content, outgoing),
            .. new SideChecks(settings).Of(content),
            .. new RecordChecks(outgoing.Record, settings).Of(content),
        ];
    }

    /// <summary>The bundle, unless something is wrong with it.</summary>
    /// <exception cref="RecordNotSentException">Something is wrong; the message says what.</exception>
    internal static Bundle Checked(Bundle bundle, OutgoingRecord outgoing, FhirSettings settings)
    {
        var faults = Of(bundle, outgoing, settings);
        return faults.Count == 0
            ? bundle
            : throw new RecordNotSentException(
                FhirWords.Of("NotSent.Faulty", outgoing.Record.Exam, string.Join(' ', faults.Take(5)))
            );
    }
}
