using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Report;
using PupilBridge.Exchange.Tests.Fhir.Support;
using PupilBridge.FhirChecking;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>Which certificate stands behind the sizes, and how the lamps stood, in everything that leaves the house.</summary>
[Collection(nameof(OfflineValidator))]
public sealed class BenchShownTests(OfflineValidator offline)
{
    private const string From = "2026-01-02T08:00:00.000Z";
    private const string Until = "2026-03-01T08:00:00.000Z";

    public static TheoryData<string, string?, string, string> Standings =>
        new()
        {
            {
                "holds",
                null,
                "calibrated by certificate 7, valid from 2026-01-02 to 2026-03-01",
                "Calibrated by certificate 7."
            },
            {
                "expired",
                "CALIBRATION EXPIRED",
                "CALIBRATION EXPIRED on 2026-03-01: certificate 7",
                "CALIBRATION EXPIRED: certificate 7"
            },
            {
                "failed",
                "CALIBRATION FAILED",
                "CALIBRATION FAILED: by certificate 7",
                "CALIBRATION FAILED: by certificate 7"
            },
        };

    [Theory]
    [MemberData(nameof(Standings))]
    public void The_certificate_behind_the_sizes_is_named_and_what_is_wrong_with_it_said_first(
        string standing,
        string? mark,
        string fact,
        string note
    )
    {
        var outgoing = With(record => record with { Calibration = new(standing, 7, From, Until, 99) });
        var report = ReportComposer.Compose(outgoing, Samples.Setting);
        Assert.Contains(Samples.Said(report), text => text.Contains(fact, StringComparison.Ordinal));
        string[] marks =
        [
            .. report.Marks.Select(m => m.Word).Where(m => m.StartsWith("CALIBRATION", StringComparison.Ordinal)),
        ];
        Assert.Equal(mark is null ? [] : [mark], marks);

        var document = outgoing.Document();
        Assert.Equal([], offline.Errors(document));
        var size = document.Observation("diameter/right/bright");
        Assert.StartsWith(note, Assert.Single(size.Note).Text, StringComparison.Ordinal);
        foreach (var metric in document.Entry.Select(e => e.Resource).OfType<DeviceMetric>())
        {
            var calibration = Assert.Single(metric.Calibration);
            Assert.Equal(
                standing == "holds"
                    ? DeviceMetric.DeviceMetricCalibrationState.Calibrated
                    : DeviceMetric.DeviceMetricCalibrationState.CalibrationRequired,
                calibration.State
            );
            Assert.Equal(
                DateTimeOffset.Parse(From, System.Globalization.CultureInfo.InvariantCulture),
                calibration.Time
            );
            Assert.EndsWith("/7", metric.Identifier[0].Value, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Lamps_that_nobody_compared_and_unequal_ones_stand_beside_the_swinging_test()
    {
        var never = With(record => record with { Lamps = null });
        Said(never, "Lamps: balance not checked");
        Assert.Contains(
            Samples.Said(ReportComposer.Compose(never, Samples.Setting)),
            text => text.Contains("Lamps: balance not checked", StringComparison.Ordinal)
        );
        var lamps = new RecordLamps(From, 40, 305, 12, "above", 98);
        Said(
            With(record => record with { Lamps = lamps }),
            "Lamps UNEQUAL: right against left +0.31 ± 0.01 log units, checked 40 days before"
        );
        Said(
            With(record => record with { Lamps = lamps with { MilliLogUnits = -4, Against = "within" } }),
            "Lamps: right against left"
        );
    }

    [Fact]
    public void Records_of_older_formats_say_nothing_that_they_did_not_hold()
    {
        var old = With(record => record with { FormatVersion = 2, Calibration = null, Lamps = null });
        Assert.Empty(old.Document().Observation("diameter/right/bright").Note);
        Assert.Empty(old.Document().Observation("swinging").Note);
    }

    private static void Said(OutgoingRecord outgoing, string inNote)
    {
        var note = Assert.Single(outgoing.Document().Observation("swinging").Note).Text;
        Assert.StartsWith(inNote, note, StringComparison.Ordinal);
    }

    private static OutgoingRecord With(Func<SignedRecord, SignedRecord> change)
    {
        var normal = Samples.Of("normal");
        return normal with { Record = change(normal.Record) };
    }
}
