using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Tests.Fhir.Support;
using PupilBridge.FhirChecking;
using static PupilBridge.Exchange.Tests.Fhir.Support.BundleReading;

namespace PupilBridge.Exchange.Tests.Fhir;

/// <summary>Firely's validator over the bundle of every constructed exam, with our own profiles.</summary>
[Collection(nameof(OfflineValidator))]
public sealed class ValidationTests(OfflineValidator offline)
{
    [Theory]
    [MemberData(nameof(Records.Numbers), MemberType = typeof(Records))]
    public void The_bundle_of_every_constructed_exam_is_valid(int number)
    {
        var record = Records.Constructed(number);
        Assert.Equal([], offline.Errors(Records.Signed(record).Document()));
    }

    [Fact]
    public void Drafts_amended_versions_named_patients_and_transactions_are_valid()
    {
        var record = Records.Constructed(29);
        var named = new PatientView("Q-1001", "Pilot One", new DateOnly(1980, 2, 29));
        OutgoingRecord[] all =
        [
            Records.Draft(record),
            Records.Draft(record with { Patient = null }) with
            {
                Patient = null,
            },
            Records.Amended(record),
            Records.Signed(record) with
            {
                Patient = named,
                Head = null,
            },
            Records.Signed(record) with
            {
                Patient = named with { MergedInto = "Q-1009" },
            },
            Records.Signed(record with { Findings = [], FormatVersion = 1 }),
        ];
        Assert.All(all, outgoing => Assert.Equal([], offline.Errors(outgoing.Document())));
        Assert.Equal([], offline.Errors(FhirBundles.Transaction(Records.Signed(record), Settings)));
        var shorter = Records.Amended(record with { Findings = [.. record.Findings.Skip(1)] });
        Assert.Equal([], offline.Errors(FhirBundles.Transaction(shorter, Settings, [Records.Signed(record)])));
    }

    [Fact]
    public void Every_resource_that_has_a_profile_of_ours_is_held_against_it()
    {
        var bundle = Records.Amended(Records.Constructed(29)).Document();
        var used = bundle.Entry.SelectMany(e => e.Resource!.Meta?.Profile ?? []).ToHashSet();
        Assert.Equal(offline.Profiles.Order(), used.Order());
        // As the first line of a check that can fail: the same resource against a profile that is not its own.
        Assert.NotEqual([], offline.Errors(bundle.Observation("diameter/left/dim"), Settings.Profile("anisocoria")));
    }

    public static TheoryData<string, string> Wrong =>
        new()
        {
            { "no subject", "subject" },
            { "two reasons", "pup-1" },
            { "site names nobody", "pup-2" },
            { "right site with a left code", "pup-3" },
            { "LOINC of the other eye", "pup-6" },
            { "no light", "pup-8" },
            { "no raw position", "pup-9" },
            { "centimetres", "does not match" },
            { "no scale", "device" },
            { "difference below zero", "pup-10" },
            { "no larger side", "pup-11" },
            { "derived from one", "derivedFrom" },
            { "grade 5", "pup-14" },
            { "direct in the other eye", "pup-15" },
            { "consensual in the lit eye", "pup-16" },
            { "dwell without timing", "pup-18" },
            { "verdict normal", "pup-20" },
            { "empty panel", "hasMember" },
            { "scale without calibration", "calibration" },
            { "report of nobody", "pup-22" },
            { "version of another report", "pup-23" },
            { "signature without digest", "pup-24" },
            { "nobody attests", "pup-26" },
            { "bad date", "1980-13" },
        };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_is_wrong_is_found(string what, string found)
    {
        var bundle = (
            Records.Signed(Records.Constructed(29)) with
            {
                Patient = new PatientView("Q-1001", null, new DateOnly(1980, 1, 1)),
            }
        ).Document();
        Wrongs.Do(bundle, what);
        Assert.Contains(offline.Errors(bundle), e => e.Contains(found, StringComparison.Ordinal));
    }
}
