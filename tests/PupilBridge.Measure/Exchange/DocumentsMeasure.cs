using System.Diagnostics;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Constructed;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Report;
using PupilBridge.FhirChecking;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Exchange;

/// <summary>
/// What leaves the house of every constructed exam of docs/criteria.md: how long each form takes after warm-up, and how many errors the
/// validator finds in the bundles.
/// </summary>
internal static class DocumentsMeasure
{
    private const int Rounds = 10;
    private static readonly FhirSettings Settings = new();
    private static readonly ReportSetting Clinic = new() { ClinicName = "Quayside Occupational Health" };
    private static long made;

    public static void Run(FigureFile figures)
    {
        OutgoingRecord[] all = [.. CriteriaDocument.Rows.Select(row => Outgoing(row.Done))];
        figures.Set("documents_exams", (long)all.Length);
        Tell(
            figures,
            "chart_json_us",
            1000,
            all,
            o => FullChart.Of(o.Record).Length + SignedRecordText.Write(o.Record).Length
        );
        Tell(figures, "fhir_bundle_ms", 1, all, o => FhirBundles.Document(o, Settings).Entry.Count);
        Tell(figures, "fhir_bundle_and_json_ms", 1, all, o => FhirTexts.Document(o, Settings).Length);
        Tell(figures, "hl7_message_ms", 1, all, o => OruMessages.Of(o, Settings).Length);
        Tell(figures, "pdf_ms", 1, all, o => PdfReport.Write(ReportComposer.Compose(o, Clinic), ReportPaper.A4).Length);
        var validator = new OfflineValidator();
        var errors = all.Sum(o => validator.Errors(FhirBundles.Document(o, Settings)).Count);
        figures.Set("fhir_validation_errors", (long)errors);
        System.Console.WriteLine($"{all.Length} bundles, {errors} validation errors");
    }

    private static void Tell(
        FigureFile figures,
        string key,
        double perMillisecond,
        OutgoingRecord[] all,
        Func<OutgoingRecord, int> make
    )
    {
        Times(all, make);
        var spread = Spread.Of([.. Times(all, make).Select(ms => ms * perMillisecond)]);
        figures.Set(key, spread.Median, 2);
        figures.Set($"{key}_p99", spread.P99, 2);
        System.Console.WriteLine(
            $"{key}: median {spread.Median:0.00}, 99 % within {spread.P99:0.00}, {spread.Count} times, {made} bytes or parts so far"
        );
    }

    private static List<double> Times(OutgoingRecord[] all, Func<OutgoingRecord, int> make)
    {
        var times = new List<double>(Rounds * all.Length);
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var outgoing in all)
            {
                var begin = Stopwatch.GetTimestamp();
                made += make(outgoing);
                times.Add(Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
            }
        }

        return times;
    }

    private static OutgoingRecord Outgoing(string done)
    {
        var record = SignedRecords.Of(ConstructedExam.Of(done), "measured");
        var text = SignedRecordText.Write(record);
        return new()
        {
            Record = record,
            Signature = new("DR", DateTimeOffset.UnixEpoch, 99, SignedRecordText.Digest(text), IsLatest: true),
            Patient = record.Patient is { } number ? new PatientView(number, null, null) : null,
            IsSetAside = false,
            Head = new JournalHead(120, new string('a', 64)),
        };
    }
}
