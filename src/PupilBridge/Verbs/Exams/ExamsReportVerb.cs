using System.CommandLine;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;
using PupilBridge.Journal;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams report</c>: the report of one exam for paper, page and screen reader.</summary>
internal sealed class ExamsReportVerb : Verb
{
    private readonly RecordChoice chosen = new();

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

    private readonly OutputFile file = new();

    public ExamsReportVerb()
        : base(
            "report",
            "Writes the report of one exam: readings, findings with sources, cautions, signature, journal head."
        )
    {
        format.AcceptOnlyFromAmong("pdf", "html", "text");
        paper.AcceptOnlyFromAmong("a4", "a5");
        Add(chosen.Exam);
        foreach (var option in (ReadOnlySpan<Option>)[format, file.Output, paper, chosen.Version, file.Force])
        {
            Add(option);
        }

        Example("pupilbridge exams report 42 --format pdf --output exam-42.pdf", "the report on one sheet of A4");
        Example("pupilbridge exams report 42 --format pdf --paper a5 -o exam-42.pdf", "the same for A5");
        Example("pupilbridge exams report 42 --version 1", "the first signed version as plain text");
        EndsWith(DeskAccess.Exits);
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var outgoing = await chosen.ReadAsync(call, cancel).ConfigureAwait(false);
        await WriteAsync(call, ReportComposer.Compose(WithHead(call, outgoing), Setting(call))).ConfigureAwait(false);
        return ExitCode.Done;
    }

    private Task WriteAsync(Call call, ReportDocument report)
    {
        var sheet = call.Get(paper) == "a5" ? ReportPaper.A5 : ReportPaper.A4;
        return call.Get(format) switch
        {
            "pdf" => file.WriteAsync(call, PdfReport.Write(report, sheet)),
            "html" => file.WriteAsync(call, HtmlReport.Write(report, sheet)),
            _ => file.WriteAsync(call, TextReport.Write(report)),
        };
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
}
