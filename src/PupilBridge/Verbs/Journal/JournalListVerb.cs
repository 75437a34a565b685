using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Journal;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Verbs.Journal;

/// <summary><c>journal list</c>: the journal's records as JSON Lines.</summary>
internal sealed class JournalListVerb : Verb
{
    private readonly Option<bool> noTimes = new("--no-times")
    {
        Description = "Leave out times of day, so that two runs of the same simulation can be compared.",
    };

    private readonly Option<long> from = new("--from")
    {
        Description = "The first sequence to print.",
        HelpName = "N",
        DefaultValueFactory = _ => 1,
    };

    private readonly Option<long?> to = new("--to") { Description = "The last sequence to print.", HelpName = "N" };

    public JournalListVerb()
        : base(
            "list",
            "Prints the journal's records as JSON Lines, oldest first, beside a running service or without one."
        )
    {
        from.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && long.TryParse(result.Tokens[0].Value, out var n) && n < 1)
            {
                result.AddError($"--from is '{n}'; the first sequence is 1.");
            }
        });
        Add(noTimes);
        Add(from);
        Add(to);
        Example("pupilbridge journal list --from 100 --to 120", "prints twenty-one records");
        Example("pupilbridge journal list --no-times | sha256sum", "one number for the content of the whole journal");
        EndsWith(ExitCode.NotFound, ExitCode.Damaged, ExitCode.Storage);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        using var keys = SubjectKeyStore.Exists(RealDisk.Instance, folder.DataFolder)
            ? SubjectKeyStore.Open(RealDisk.Instance, folder.DataFolder, folder.Keys)
            : null;
        var lines = new EntryLines(withTimes: !call.Get(noTimes), keys);
        var last = Math.Min(call.Get(to) ?? long.MaxValue, await DurableAsync(folder, cancel).ConfigureAwait(false));
        using var reader = JournalReader.Settled(RealDisk.Instance, folder, call.Get(from));
        foreach (var record in reader.ReadAll().TakeWhile(record => record.Sequence <= last))
        {
            cancel.ThrowIfCancellationRequested();
            call.Print(lines.Line(record));
        }

        foreach (var problem in reader.Problems)
        {
            call.Remark($"pupilbridge: {problem}");
        }

        return reader.Problems.Any(problem => problem.Severity == ProblemSeverity.Damage)
            ? ExitCode.Damaged
            : ExitCode.Done;
    }

    /// <summary>Beside a running service only what is on disk for certain is printed.</summary>
    private static async Task<long> DurableAsync(JournalFolder folder, CancellationToken cancel)
    {
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        return service is null ? long.MaxValue : await service.Desk.DurableAsync(cancel).ConfigureAwait(false);
    }
}
