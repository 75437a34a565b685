using System.Text;
using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The diagnostic report, which is what a receiver looks for first.</summary>
/// <param name="bundle">The record's bundle.</param>
internal sealed class Reports(RecordBundle bundle)
{
    private const string Replaces = "http://hl7.org/fhir/StructureDefinition/diagnosticReport-replaces";

    public ResourceReference Add(IEnumerable<ResourceReference> results)
    {
        var record = bundle.Record;
        var identifier = bundle.Identify("report", bundle.Key);
        var report = new DiagnosticReport
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile("pupil-exam-report")] },
            Identifier = [identifier],
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

        if (bundle.IsAmended)
        {
            report.Extension = [new Extension(Replaces, Earlier())];
        }

        return bundle.Add(report, identifier, FhirWords.Of("Report", record.Exam, record.Version));
    }

    // The version before is not in this bundle: it is named by its identifier, by which a server has it.
    private ResourceReference Earlier()
    {
        var earlier = $"{bundle.Record.Exam}/{bundle.Record.Version - 1}";
        return new ResourceReference
        {
            Type = nameof(DiagnosticReport),
            Identifier = bundle.Identify("report", earlier),
            Display = FhirWords.Of("Report", bundle.Record.Exam, bundle.Record.Version - 1),
        };
    }
}
