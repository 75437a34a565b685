using System.Text;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Exchange.WebApi.Exports;

/// <summary>
/// The forms in which an exam leaves the house by the web API, made by what <c>pupilbridge exams export</c> and <c>exams report</c> are made by.
/// </summary>
public static class ExamExports
{
    /// <summary>Adds them.</summary>
    /// <param name="services">Where to.</param>
    /// <param name="fhir">Gives the clinic's settings about FHIR; asked with the first export that needs them, and not before.</param>
    /// <param name="report">What of the house a report needs.</param>
    public static void Add(IServiceCollection services, Func<FhirSettings> fhir, ReportSetting report)
    {
        foreach (var export in Of(new Lazy<FhirSettings>(fhir), report))
            services.AddSingleton<IExamExport>(export);
    }

    // Nothing of FHIR may be touched outside of the functions: loading its model takes seconds, for which no start and no reading may wait.
    private static IEnumerable<ExamExport> Of(Lazy<FhirSettings> fhir, ReportSetting setting)
    {
        yield return new("fhir", FhirJson.MediaType, "json", (exam, _) => Utf8(FhirTexts.Document(exam, fhir.Value)));
        yield return new(
            "fhir-transaction",
            FhirJson.MediaType,
            "json",
            (exam, _) => Utf8(FhirTexts.Transaction(exam, fhir.Value))
        );
        yield return new("hl7", OruMessages.MediaType, "hl7", (exam, _) => Utf8(OruMessages.Of(exam, fhir.Value)));
        yield return new(
            "report-pdf",
            "application/pdf",
            "pdf",
            (exam, paper) => PdfReport.Write(ReportComposer.Compose(exam, setting), paper)
        )
        {
            IsText = false,
            HasPaper = true,
        };
        yield return new(
            "report-html",
            "text/html",
            "html",
            (exam, paper) => Utf8(HtmlReport.Write(ReportComposer.Compose(exam, setting), paper))
        )
        {
            HasPaper = true,
        };
        yield return new(
            "report-text",
            "text/plain",
            "txt",
            (exam, _) => Utf8(TextReport.Write(ReportComposer.Compose(exam, setting)))
        );
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    private sealed class ExamExport(
        string name,
        string mediaType,
        string ending,
        Func<OutgoingRecord, ReportPaper, byte[]> write
    ) : IExamExport
    {
        public string Name => name;

        public string What => WebApiText.Words[$"Export.{name}"];

        public string MediaType => mediaType;

        public bool IsText { get; init; } = true;

        public string Ending => ending;

        public bool HasPaper { get; init; }

        public byte[] Write(OutgoingRecord exam, ReportPaper paper) => write(exam, paper);
    }
}
