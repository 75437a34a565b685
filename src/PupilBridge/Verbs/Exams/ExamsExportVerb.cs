using System.CommandLine;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Exchange;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams export</c>: one record for another system. Nothing is sent; it goes into a file or to standard output.</summary>
internal sealed class ExamsExportVerb : Verb
{
    private readonly RecordChoice chosen = new();

    private readonly Option<string> format = new("--format")
    {
        Description =
            "fhir: a FHIR R4 document. fhir-transaction: as it is sent to a FHIR server. hl7: an HL7 v2.5.1 ORU^R01 message.",
        DefaultValueFactory = _ => "fhir",
    };

    private readonly OutputFile file = new();

    public ExamsExportVerb()
        : base("export", "Writes the record of one exam for another system: FHIR R4 or HL7 v2. Nothing is sent.")
    {
        format.AcceptOnlyFromAmong("fhir", "fhir-transaction", "hl7");
        Add(chosen.Exam);
        foreach (var option in (ReadOnlySpan<Option>)[format, chosen.Version, file.Output, file.Force])
        {
            Add(option);
        }

        Example("pupilbridge exams export 42 --output exam-42.json", "the record as a FHIR R4 document");
        Example(
            "pupilbridge exams export 42 --version 1 --format hl7",
            "the first signed version as an HL7 v2 message"
        );
        EndsWith([.. DeskAccess.Exits, ExitCode.Configuration]);
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var settings = Settings.Read(DataFolderChoice.For(call), new Dictionary<string, string?>()).OrFail().Fhir;
        var outgoing = await chosen.ReadAsync(call, cancel).ConfigureAwait(false);
        await file.WriteAsync(call, Text(call.Get(format), outgoing, settings)).ConfigureAwait(false);
        return ExitCode.Done;
    }

    private static string Text(string? format, OutgoingRecord outgoing, FhirSettings settings)
    {
        try
        {
            return format switch
            {
                "hl7" => OruMessages.Of(outgoing, settings),
                "fhir-transaction" => FhirTexts.Transaction(outgoing, settings),
                _ => FhirTexts.Document(outgoing, settings),
            };
        }
        catch (RecordNotSentException refused)
        {
            throw new CommandFailure(ExitCode.Refused, refused.Message);
        }
    }
}
