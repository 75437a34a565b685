using System.Text;
using BenchmarkDotNet.Attributes;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Benchmarks;

/// <summary>What leaves the house of one whole exam with an afferent defect, the longest of the usual reports.</summary>
[MemoryDiagnoser]
public class ReportBenchmarks
{
    private const string Script =
        "start 1.0; meet A; lux 300; fix far; open Q-1003; +1000; mode measure; +500; pair R 3200; pair L 4600; lux 1; +40000;"
        + "pair R 5100; pair L 5250; shape R round; shape L notround; mode hold direct; +500; directs; direct R 3; direct L 0.5;"
        + "mode hold short; +500; swings 1000 4 R; swing short L; mode hold long; +500; swings 3000 4 L; swing long L;"
        + "mode hold near; fix near; +3000; near R 3; near L 2; fix far; mode idle; ready";

    private Exam exam = null!;
    private SignedRecord record = null!;
    private ReportDocument report = null!;

    [GlobalSetup]
    public void Setup()
    {
        exam = Constructed.Scripts.Script.Run(Script).Exams.Values.Single();
        record = SignedRecords.Of(new CriteriaInput { Exam = exam, AgeYears = 45 }, "bench");
        report = ReportComposer.Compose(
            new OutgoingRecord
            {
                Record = record,
                Signature = null,
                Patient = new PatientView("Q-1003", null, null),
                IsSetAside = false,
                Head = new JournalHead(100, new string('a', 64)),
            },
            new ReportSetting { ClinicName = "Quayside Occupational Health" }
        );
    }

    /// <summary>The chart text in all three lengths, out of the exam and its findings.</summary>
    [Benchmark]
    public int Chart() => ChartText.OneLine(exam).Length + ChartText.Block(exam).Length + FullChart.Of(record).Length;

    /// <summary>The record as JSON.</summary>
    [Benchmark]
    public int Json() => SignedRecordText.Write(record).Length;

    /// <summary>Everything from the exam to the record's JSON, all criteria included.</summary>
    [Benchmark]
    public int FindingsAndJson() =>
        SignedRecordText.Write(SignedRecords.Of(new CriteriaInput { Exam = exam, AgeYears = 45 }, "bench")).Length;

    /// <summary>The PDF on A4.</summary>
    [Benchmark]
    public int Pdf() => PdfReport.Write(report, ReportPaper.A4).Length;

    /// <summary>The page.</summary>
    [Benchmark]
    public int Html() => HtmlReport.Write(report, ReportPaper.A4).Length;

    /// <summary>The plain text.</summary>
    [Benchmark]
    public int Text() => Encoding.UTF8.GetByteCount(TextReport.Write(report));
}
