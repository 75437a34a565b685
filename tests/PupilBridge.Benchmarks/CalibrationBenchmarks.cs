using BenchmarkDotNet.Attributes;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Diameters;
using PupilBridge.Instrument;

namespace PupilBridge.Benchmarks;

/// <summary>A fit of a large run, and exams read anew under another calibration.</summary>
[MemoryDiagnoser]
public class CalibrationBenchmarks
{
    private DiscReading[] readings = null!;
    private Exam[] exams = null!;
    private PerEye<ICorrection> corrections = null!;

    [GlobalSetup]
    public void Setup() =>
        (readings, exams, corrections) = (
            CalibrationSample.Readings(12, 10),
            CalibrationSample.Exams(1_000),
            CalibrationSample.Corrections()
        );

    /// <summary>One scale, 12 discs × 10 readings, from the readings to the statement.</summary>
    [Benchmark]
    public ConformityStatement Fit() => CalibrationSample.Fit(readings);

    /// <summary>The sizes of a thousand exams under another calibration.</summary>
    [Benchmark]
    public double RederiveThousand()
    {
        var sum = 0.0;
        foreach (var exam in exams)
            sum += CalibrationSample.Rederive(exam, corrections);
        return sum;
    }
}
