using System.CommandLine;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Exchange.Report;
using PupilBridge.Exchange.Report.Html;
using PupilBridge.Exchange.Report.Pdf;
using PupilBridge.Exchange.Report.Text;
using PupilBridge.Journal;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams report</c>: the report of one exam for paper, page and screen reader.</summary>
internal sealed class ExamsReportVerb : Verb
{
    private readonly Argument<long> exam = new("exam") { Description = "The exam's number." };

    private readonly Option<string> format = new("--format")
    {
        Description = "What to write.",
        DefaultValueFactory = _ => "text",
    };

    private readonly Option<string> paper = new("--paper")
    {
        Description = "The sheet that it is for.",
        DefaultValueFactory = _ => "a4",
    };

    private readonly Option<int?> version = new("--version")
    {
        Description = "A signed version; without it the latest signed one, or the draft while none is signed.",
        HelpName = "N",
    };

    private readonly OutputFile file = new();

    public ExamsReportVerb()
        : base(
            "report",
            "Writes the report of one exam: readings, findings with sources, cautions, signature, journal head."
        )
    {
        format.AcceptOnlyFromAmong("pdf", "html", "text");
        paper.AcceptOnlyFromAmong("a4", "a5");
        Add(exam);
        foreach (var option in (ReadOnlySpan<Option>)[format, file.Output, paper, version, file.Force])
        {
            Add(option);
        }

        Example("pupilbridge exams report 42 --format pdf --output exam-42.pdf", "the report on one sheet of A4");
        Example("pupilbridge exams report 42 --format pdf --paper a5 -o exam-42.pdf", "the same for A5");
        Example("pupilbridge exams report 42 --version 1", "the first signed version as plain text");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.InUse, ExitCode.NoService, ExitCode.Storage);
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var number = call.Get(exam);
        var wanted = call.Get(version);
        OutgoingRecord outgoing;
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            outgoing =
                await access
                    .AskOutgoingAsync(desk => desk.ShowOutgoingAsync(number, wanted, cancel))
                    .ConfigureAwait(false)
                ?? throw (wanted is { } v ? NoSuchVersion(number, v) : ExamsShowVerb.NoSuchExam(number));
        }

        Write(call, ReportComposer.Compose(WithHead(call, outgoing), Setting(call)));
        return ExitCode.Done;
    }

    private void Write(Call call, ReportDocument report)
    {
        var sheet = call.Get(paper) == "a5" ? ReportPaper.A5 : ReportPaper.A4;
        switch (call.Get(format))
        {
            case "pdf":
                file.Write(call, PdfReport.Write(report, sheet));
                break;
            case "html":
                file.Write(call, HtmlReport.Write(report, sheet));
                break;
            default:
                file.Write(call, TextReport.Write(report));
                break;
        }
    }

    /// <summary>Where no service knows the journal's end, it is read: only a sound journal gives a head to write on paper.</summary>
    private static OutgoingRecord WithHead(Call call, OutgoingRecord outgoing)
    {
        if (outgoing.Head is not null)
        {
            return outgoing;
        }

        var journal = JournalVerifier.Verify(
            RealDisk.Instance,
            JournalPlace.Existing(DataFolderChoice.For(call)),
            expectedHead: null
        );
        if (journal.IsSound)
        {
            return outgoing with { Head = new(journal.Head.Sequence, journal.Head.Hash.ToString()) };
        }

        call.Remark(
            "pupilbridge: the journal is not sound, so the report bears no head; look with 'pupilbridge journal verify'."
        );
        return outgoing;
    }

    private static ReportSetting Setting(Call call)
    {
        var web = Settings.Read(DataFolderChoice.For(call), new Dictionary<string, string?>()).Root;
        return new ReportSetting
        {
            ClinicName = web["Web:Clinic"] ?? "",
            Zone = call.Time.LocalTimeZone,
            WantsNames = !"false".Equals(web["Web:Names"], StringComparison.OrdinalIgnoreCase),
        };
    }

    private static CommandFailure NoSuchVersion(long number, int version) =>
        new(
            ExitCode.NotFound,
            $"Exam {number} has no signed version {version}, or its text has been erased.",
            $"'pupilbridge exams show {number}' shows how it stands."
        );
}
