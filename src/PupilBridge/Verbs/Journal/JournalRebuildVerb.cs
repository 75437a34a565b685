using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Hosting;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Verbs.Journal;

/// <summary><c>journal rebuild</c>: builds the exam log anew from the journal; beside a running service or without one.</summary>
internal sealed class JournalRebuildVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public JournalRebuildVerb()
        : base(
            "rebuild",
            "Builds the exam log anew from the journal. The old one is kept aside; the journal itself is not touched."
        )
    {
        Add(json);
        Example("pupilbridge journal rebuild", "builds the exam log anew");
        EndsWith(ExitCode.NotFound, ExitCode.InUse, ExitCode.Damaged, ExitCode.NoService, ExitCode.Storage);
        Does(RebuildAsync);
    }

    private async Task<ExitCode> RebuildAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        var built = service is null
            ? BridgeDesk.Rebuilt(OfflineFolder.Rebuild(OfflineParts.For(call, folder), "asked for by a person", cancel))
            : await service.Desk.RebuildExamLogAsync(cancel).ConfigureAwait(false);
        if (call.Get(json))
        {
            call.PrintJson(built);
            return ExitCode.Done;
        }

        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"The exam log was built anew from {built.UpTo} journal entries: {built.Documents} documents, digest {built.Digest}."
            )
        );
        if (built.OldFiles is { } old)
        {
            call.Print($"The files that were in use before are kept in {old}");
        }

        return ExitCode.Done;
    }
}
