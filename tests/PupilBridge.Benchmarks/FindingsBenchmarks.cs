using BenchmarkDotNet.Attributes;
using PupilBridge.Constructed;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;

namespace PupilBridge.Benchmarks;

/// <summary>What every criterion says of one whole exam that has an earlier visit, luminance and age.</summary>
[MemoryDiagnoser]
public class FindingsBenchmarks
{
    private CriteriaInput input = null!;

    [GlobalSetup]
    public void Setup() =>
        input = ConstructedExam.Of(
            "bright 4.00/3.15; short R; long R; consensual 3/3; near 3/3; site-bright 100 2827.4334 2; "
                + "bell R II; bracket R stillworse alike reversed; earlier bright 3.20/3.15"
        );

    /// <summary>The findings alone.</summary>
    [Benchmark(Baseline = true)]
    public int Evaluate() => Findings.Of(input).Length;

    /// <summary>The findings as the record has them.</summary>
    [Benchmark]
    public int ForTheRecord() => SignedRecords.Findings(input).Count;

    /// <summary>The whole record and its text.</summary>
    [Benchmark]
    public int WholeRecordText() => SignedRecordText.Write(SignedRecords.Of(input, "1.0")).Length;
}
