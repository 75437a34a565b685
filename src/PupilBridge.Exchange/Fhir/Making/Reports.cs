using System.Text;
using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The diagnostic report, which is what a receiver looks for first.</summary>
/// <param name="bundle">The record's bundle.</param>
internal sealed class Reports(RecordBundle bundle)
{
    public ResourceReference Add(IEnumerable<ResourceReference> results)
    {
        var record = bundle.Record;
        var identifier = bundle.Identify("report", bundle.Exam);
        var report = new DiagnosticReport
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile("pupil-exam-report")] },
            // The report stays the same in all its versions; the second identifier says which one this is.
            Identifier = [identifier, bundle.Identify("record", bundle.Key)],
            Status =
                bundle.IsDraft ? DiagnosticReport.DiagnosticReportStatus.Preliminary
                : bundle.IsAmended ? DiagnosticReport.DiagnosticReportStatus.Amended
                : DiagnosticReport.DiagnosticReportStatus.Final,
            Code = bundle.Concepts.Of("exam-panel", text: FhirWords.Of("Panel.exam-panel")),
            Subject = bundle.Subject.Again(),
            Effective = bundle.Sitting,
            Performer = bundle.People(record.Opened.Who),
            Result = [.. results.Select(r => r.Again())],
            Conclusion = record.Chart.Line,
            PresentedForm =
            [
                new Attachment
                {
                    ContentType = "text/plain; charset=utf-8",
                    Title = FhirWords.Of("Chart"),
                    Data = Encoding.UTF8.GetBytes(string.Join('\n', record.Chart.Block)),
                },
            ],
        };
        if (bundle.Outgoing.Signature is { } signature)
        {
            report.Issued = signature.At;
            report.ResultsInterpreter = bundle.People(signature.Who);
        }

        return bundle.Add(report, identifier, FhirWords.Of("Report", record.Exam, record.Version));
    }
}
