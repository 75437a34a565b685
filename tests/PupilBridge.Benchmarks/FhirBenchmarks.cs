using BenchmarkDotNet.Attributes;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;

namespace PupilBridge.Benchmarks;

/// <summary>One record to a FHIR bundle with all its checks, to its JSON, and to an HL7 v2 message, after warm-up.</summary>
[MemoryDiagnoser]
public class FhirBenchmarks
{
    private readonly FhirSettings settings = new();
    private OutgoingRecord outgoing = null!;

    [GlobalSetup]
    public void Setup()
    {
        using var stream = typeof(FhirBenchmarks).Assembly.GetManifestResourceStream("record.json")!;
        using var reader = new StreamReader(stream);
        var text = reader.ReadLine()!;
        outgoing = new OutgoingRecord
        {
            Record = SignedRecordText.Read(text),
            Signature = new("DR", DateTimeOffset.UnixEpoch, 99, SignedRecordText.Digest(text), IsLatest: true),
            Patient = null,
            IsSetAside = false,
            Head = new JournalHead(120, new string('0', 64)),
        };
    }

    [Benchmark(Baseline = true)]
    public Bundle Document() => FhirBundles.Document(outgoing, settings);

    [Benchmark]
    public string DocumentAsJson() => FhirTexts.Document(outgoing, settings);

    [Benchmark]
    public string TransactionAsJson() => FhirTexts.Transaction(outgoing, settings);

    [Benchmark]
    public string Hl7Message() => OruMessages.Of(outgoing, settings);
}
