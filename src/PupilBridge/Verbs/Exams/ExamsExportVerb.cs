using System.CommandLine;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Exchange;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams export</c>: one record for another system. Nothing is sent; it goes into a file or to standard output.</summary>
internal sealed class ExamsExportVerb : Verb
{
    private readonly Argument<long> exam = new("exam") { Description = "The exam's number." };

    private readonly Option<string> format = new("--format")
    {
        Description =
            "fhir: a FHIR R4 document. fhir-transaction: as it is sent to a FHIR server. hl7: an HL7 v2.5.1 ORU^R01 message.",
        DefaultValueFactory = _ => "fhir",
    };

    private readonly Option<int?> version = new("--version")
    {
        Description = "A signed version; without it the latest signed one, or the draft while none is signed.",
        HelpName = "N",
    };

    private readonly OutputFile file = new();

    public ExamsExportVerb()
        : base("export", "Writes the record of one exam for another system: FHIR R4 or HL7 v2. Nothing is sent.")
    {
        format.AcceptOnlyFromAmong("fhir", "fhir-transaction", "hl7");
        Add(exam);
        foreach (var option in (ReadOnlySpan<Option>)[format, version, file.Output, file.Force])
        {
            Add(option);
        }

        Example("pupilbridge exams export 42 --output exam-42.json", "the record as a FHIR R4 document");
        Example(
            "pupilbridge exams export 42 --version 1 --format hl7",
            "the first signed version as an HL7 v2 message"
        );
        EndsWith(
            ExitCode.NotFound,
            ExitCode.Refused,
            ExitCode.InUse,
            ExitCode.Configuration,
            ExitCode.NoService,
            ExitCode.Storage
        );
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var (number, wanted) = (call.Get(exam), call.Get(version));
        var settings = Settings.Read(DataFolderChoice.For(call), new Dictionary<string, string?>()).OrFail().Fhir;
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var outgoing =
                await access
                    .AskOutgoingAsync(desk => desk.ShowOutgoingAsync(number, wanted, cancel))
                    .ConfigureAwait(false)
                ?? throw (wanted is { } v ? NoSuchVersion(number, v) : ExamsShowVerb.NoSuchExam(number));
            file.Write(call, Text(call.Get(format), outgoing, settings));
        }

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

    private static CommandFailure NoSuchVersion(long number, int version) =>
        new(
            ExitCode.NotFound,
            $"Exam {number} has no signed version {version}, or its text has been erased.",
            $"'pupilbridge exams show {number}' shows how it stands."
        );
}
