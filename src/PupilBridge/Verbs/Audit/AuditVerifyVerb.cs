using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Journal;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Verbs.Audit;

/// <summary><c>audit verify</c>: every note, the chain and the sequence of the audit trail; beside a running service or without one.</summary>
internal sealed class AuditVerifyVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public AuditVerifyVerb()
        : base(
            "verify",
            "Checks every record of the audit trail and its chain. A note that was altered, removed or put in shows; an end that was cut off does not."
        )
    {
        Add(json);
        Example("pupilbridge audit verify", "checks everything, and says under which head it was sound");
        EndsWith(ExitCode.NotFound, ExitCode.Damaged, ExitCode.Storage);
        Does((call, _) => Task.FromResult(Verify(call)));
    }

    private ExitCode Verify(Call call)
    {
        var folder = AuditFolder.Of(JournalPlace.Existing(DataFolderChoice.For(call)));
        if (!Directory.Exists(folder.Segments))
        {
            throw new CommandFailure(
                ExitCode.NotFound,
                $"There is no audit trail in {folder.DataFolder}.",
                "It begins with the first record that somebody looks at; if there was one, put it back from a backup."
            );
        }

        var report = JournalVerifier.Verify(RealDisk.Instance, folder);
        if (call.Get(json))
        {
            call.PrintJson(
                new
                {
                    report.IsSound,
                    report.Segments,
                    Notes = report.Entries,
                    Head = report.Head.ToString(),
                    BesideRunningService = report.InUse,
                    report.Problems,
                }
            );
        }
        else
        {
            // The summary speaks of a journal, which the trail is.
            call.Print($"Audit trail in {folder.Segments}: {report.Summary}");
            foreach (var problem in report.Problems)
            {
                call.Print($"  {(problem.Severity == ProblemSeverity.Damage ? "DAMAGE" : "remark")} {problem}");
            }
        }

        return report.IsSound ? ExitCode.Done : ExitCode.Damaged;
    }
}
