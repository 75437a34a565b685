using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The instrument with a metric for each scale and one for their difference, each with its calibration state.</summary>
/// <param name="Right">The right eye's scale.</param>
/// <param name="Left">The left eye's scale.</param>
/// <param name="Difference">What is calculated from both.</param>
/// <param name="Instrument">The instrument itself.</param>
internal sealed record Devices(
    ResourceReference Right,
    ResourceReference Left,
    ResourceReference Difference,
    ResourceReference Instrument
)
{
    public ResourceReference Scale(Eye eye) => (eye == Eye.Right ? Right : Left).Again();

    public static Devices Add(RecordBundle bundle)
    {
        var told = bundle.Record.Instrument;
        var identifier = bundle.Identify("instrument", told.Serial);
        var device = new Device
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile("pupil-tester")] },
            Identifier = [identifier],
            SerialNumber = told.Serial,
            Type = bundle.Concepts.Of("pupil-tester"),
        };
        if (told.Model is { } model)
        {
            device.DeviceName = [new() { Name = model, Type = DeviceNameType.ModelName }];
        }

        var instrument = bundle.Add(device, identifier, FhirWords.Of("Instrument", told.Serial));
        var (right, left) = (StateOf(bundle.Record, "right"), StateOf(bundle.Record, "left"));
        var both = right == left ? right : Worse(right, left);
        return new Devices(
            Metric(bundle, instrument, "right", bundle.Concepts.Of("measuring-scale"), right),
            Metric(bundle, instrument, "left", bundle.Concepts.Of("measuring-scale"), left),
            Metric(bundle, instrument, "difference", bundle.Concepts.Of("scale-difference"), both),
            instrument
        );
    }

    // State and certificate stand in the identifier: a metric that a server has from before a calibration must not be taken for today's.
    private static ResourceReference Metric(
        RecordBundle bundle,
        ResourceReference instrument,
        string of,
        CodeableConcept type,
        DeviceMetric.DeviceMetricCalibrationState state
    )
    {
        var isDifference = of == "difference";
        var calibration = bundle.Record.Calibration;
        var certificate = calibration?.Number is { } number ? $"/{number}" : "";
        var identifier = bundle.Identify("scale", $"{bundle.Record.Instrument.Serial}/{of}/{Word(state)}{certificate}");
        type.Text = FhirWords.Of($"Scale.{of}");
        var metric = new DeviceMetric
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile("measuring-scale")] },
            Identifier = [identifier],
            Type = type,
            Unit = new CodeableConcept(Concepts.UcumSystem, "mm"),
            Source = instrument.Again(),
            Category = isDifference
                ? DeviceMetric.DeviceMetricCategory.Calculation
                : DeviceMetric.DeviceMetricCategory.Measurement,
            Calibration =
            [
                new()
                {
                    State = state,
                    TimeElement = calibration?.Effective is { } from ? new Instant(FhirTimes.Read(from)) : null,
                },
            ],
        };
        return bundle.Add(metric, identifier, type.Text);
    }

    private static DeviceMetric.DeviceMetricCalibrationState StateOf(SignedRecord record, string eye)
    {
        bool[] states = [.. record.Sizes.Where(s => s.Eye == eye).Select(s => s.IsCalibrated)];
        return states.Length == 0 ? DeviceMetric.DeviceMetricCalibrationState.Unspecified
            : states.All(calibrated => calibrated)
                ? record.Calibration is { Standing: "expired" or "failed" }
                        ? DeviceMetric.DeviceMetricCalibrationState.CalibrationRequired
                    : DeviceMetric.DeviceMetricCalibrationState.Calibrated
            : DeviceMetric.DeviceMetricCalibrationState.NotCalibrated;
    }

    private static DeviceMetric.DeviceMetricCalibrationState Worse(
        DeviceMetric.DeviceMetricCalibrationState right,
        DeviceMetric.DeviceMetricCalibrationState left
    ) =>
        right == DeviceMetric.DeviceMetricCalibrationState.NotCalibrated
        || left == DeviceMetric.DeviceMetricCalibrationState.NotCalibrated
            ? DeviceMetric.DeviceMetricCalibrationState.NotCalibrated
            : DeviceMetric.DeviceMetricCalibrationState.Unspecified;

    private static string Word(DeviceMetric.DeviceMetricCalibrationState state) =>
        state switch
        {
            DeviceMetric.DeviceMetricCalibrationState.Calibrated => "calibrated",
            DeviceMetric.DeviceMetricCalibrationState.NotCalibrated => "not-calibrated",
            DeviceMetric.DeviceMetricCalibrationState.CalibrationRequired => "calibration-required",
            _ => "unspecified",
        };
}
