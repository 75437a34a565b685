using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Hosting;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Stamps;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Verbs.Journal;

/// <summary>
/// <c>journal verify</c>: every record, the chain, the sequence, and the exam log against the journal; beside a running
/// service or without one.
/// </summary>
internal sealed class JournalVerifyVerb : Verb
{
    private readonly Option<string[]> head = new("--head")
    {
        Description =
            "A head as reports, certificates and 'journal head' print it; the journal must lead through it. May stand several times.",
        HelpName = "SEQUENCE:HASH",
    };

    private readonly Option<string[]> headFile = new("--head-file")
    {
        Description = "A file with heads that were kept elsewhere, such as 'journal head --output' writes.",
        HelpName = "FILE",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public JournalVerifyVerb()
        : base(
            "verify",
            "Checks every record of the journal, its chain and its sequence, and that the exam log holds what the journal says."
        )
    {
        Add(head);
        Add(headFile);
        Add(json);
        Example("pupilbridge journal verify", "checks everything");
        Example("pupilbridge journal verify --head-file /media/usb/head.txt", "also shows an end that was cut off");
        Example(
            "pupilbridge journal verify --json > check.json",
            "keeps the result, with the head to write down elsewhere"
        );
        EndsWith(ExitCode.NotFound, ExitCode.InUse, ExitCode.Damaged, ExitCode.NoService, ExitCode.Storage);
        Does(VerifyAsync);
    }

    private async Task<ExitCode> VerifyAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        JournalPosition[] expected =
        [
            .. (call.Get(head) ?? []).Select(HeadText.Read),
            .. (call.Get(headFile) ?? []).SelectMany(HeadText.InFile),
        ];
        var stamps = StampCheck.All(new StampFolder(folder.DataFolder), AuthorityFile(folder.DataFolder));
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        // The exam log first: a running service goes on, and the journal read afterwards can only be longer.
        var examLog = service is null
            ? BridgeDesk.Verdict(ProjectionCheck.Offline(OfflineParts.For(call, folder), cancel))
            : await service.Desk.CheckExamLogAsync(cancel).ConfigureAwait(false);
        var report = JournalVerifier.Verify(
            RealDisk.Instance,
            folder,
            [.. expected, .. stamps.Where(stamp => stamp.Trouble is null).Select(stamp => stamp.Head!.Value)]
        );
        examLog = WithoutEnd(examLog, report);
        if (call.Get(json))
        {
            call.PrintJson(Document(report, examLog, stamps));
        }
        else
        {
            Print(call, report, examLog);
            Print(call, stamps);
        }

        return report.IsSound && examLog.IsSame && stamps.All(stamp => stamp.Trouble is null)
            ? ExitCode.Done
            : ExitCode.Damaged;
    }

    private static string? AuthorityFile(string dataFolder) =>
        StampOptions.AuthorityFileOf(Settings.Read(dataFolder, new Dictionary<string, string?>()).Root);

    private static void Print(Call call, IReadOnlyList<CheckedStamp> stamps)
    {
        foreach (var stamp in stamps.Where(stamp => stamp.Trouble is not null))
        {
            call.Print($"  DAMAGE time stamp {stamp.File}: {stamp.Trouble}. Put it back from a backup.");
        }

        if (stamps.LastOrDefault(stamp => stamp.Trouble is null) is { } last)
        {
            call.Print(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Time stamps: {stamps.Count}, the latest of {last.At!.Value.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC for sequence {last.Head!.Value.Sequence}, by {last.By}{(last.IsTrusted is null ? " (certificate not judged: Stamps:AuthorityFile is not set)" : "")}."
                )
            );
        }
    }

    private static void Print(Call call, VerifyReport report, ExamLogVerdict examLog)
    {
        call.Print(report.Summary);
        foreach (var problem in report.Problems)
        {
            call.Print($"  {(problem.Severity == ProblemSeverity.Damage ? "DAMAGE" : "remark")} {problem}");
        }

        call.Print(
            examLog switch
            {
                { IsSame: true } => string.Create(
                    CultureInfo.InvariantCulture,
                    $"The exam log holds what the journal says up to entry {examLog.UpTo}{Behind(examLog)}: {examLog.InExamLog}."
                ),
                { Trouble: { } trouble } => $"The exam log does not pass: {trouble}",
                _ => "The exam log DIFFERS from what the journal says: it holds "
                    + $"{examLog.InExamLog}, and from the journal follows {examLog.FromJournal}.",
            }
        );
        if (!report.IsSound || examLog.UpTo > report.Head.Sequence)
        {
            call.Remark(
                "pupilbridge: do not rebuild the exam log now: it may hold what the journal lacks. Copy the whole data folder first."
            );
        }
        else if (!examLog.IsSame)
        {
            call.Remark("pupilbridge: build it anew with 'pupilbridge journal rebuild'; the journal is the truth.");
        }

        if (report.IsSound)
        {
            call.Print($"Head, to be written down elsewhere: {report.Head}");
        }
    }

    /// <summary>How far the exam log is behind; marks of the journal's own may end it, so it can be ahead of the last entry.</summary>
    private static string Behind(ExamLogVerdict examLog) =>
        examLog.UpTo >= examLog.JournalEnd
            ? ""
            : string.Create(
                CultureInfo.InvariantCulture,
                $" ({examLog.JournalEnd - examLog.UpTo} later ones follow by themselves)"
            );

    /// <summary>An exam log that knows more than the journal shows that the journal's end is missing.</summary>
    private static ExamLogVerdict WithoutEnd(ExamLogVerdict examLog, VerifyReport report) =>
        examLog.UpTo <= report.Head.Sequence
            ? examLog
            : examLog with
            {
                IsSame = false,
                Trouble =
                    $"it holds entries up to {Number(examLog.UpTo)}, and the journal ends at {Number(report.Head.Sequence)}: the "
                    + "journal's end is missing. Keep this folder as it is and compare with a backup.",
            };

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static object Document(VerifyReport report, ExamLogVerdict examLog, IReadOnlyList<CheckedStamp> stamps) =>
        new
        {
            IsSound = report.IsSound && examLog.IsSame && stamps.All(stamp => stamp.Trouble is null),
            Journal = new
            {
                report.IsSound,
                report.Segments,
                report.Records,
                report.Entries,
                report.Bytes,
                Head = report.Head.ToString(),
                report.EndsCleanly,
                BesideRunningService = report.InUse,
                report.Problems,
            },
            ExamLog = examLog,
            Stamps = stamps.Select(stamp => new
            {
                stamp.File,
                Head = stamp.Head?.ToString(),
                At = stamp.At?.UtcDateTime,
                stamp.By,
                stamp.IsTrusted,
                stamp.Trouble,
            }),
        };
}
