using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Hosting;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Restoring;
using PupilBridge.Verbs.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Verbs.Backups;

/// <summary><c>restore</c>: a data folder of a backup, on this or another machine.</summary>
internal sealed class RestoreVerb : Verb
{
    private readonly Argument<string> place = BackupArguments.Place("SOURCE");
    private readonly Option<int?> number = BackupArguments.Number();
    private readonly EnvelopeOptions envelope = new();
    private readonly Option<bool> json = CommonOptions.Json();

    private readonly Option<string[]> head = new("--head")
    {
        Description =
            "A head as reports, certificates and 'journal head' print it; the restored journal must lead through it.",
        HelpName = "SEQUENCE:HASH",
    };

    public RestoreVerb()
        : base(
            "restore",
            "Makes a new data folder of a backup, checks the whole of it, builds the exam log, and only then gives it its name. "
                + "It never writes over other data."
        )
    {
        Add(place);
        foreach (var option in (ReadOnlySpan<Option>)[number, envelope.PassPhraseFile, envelope.PrivateKey, head, json])
        {
            Add(option);
        }

        Example(
            "pupilbridge restore /media/safe/quayside --data /var/lib/pupilbridge",
            "the latest backup, on a new machine"
        );
        Example(
            "pupilbridge restore /media/safe/quayside --backup 12 --data /tmp/look",
            "the journal as it stood at backup 12"
        );
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Damaged, ExitCode.Storage);
        Does(RestoreAsync);
    }

    private async Task<ExitCode> RestoreAsync(Call call, CancellationToken cancel)
    {
        var backups = BackupArguments.In(call.Get(place)!);
        var folder = DataFolderChoice.For(call);
        var chosen = backups.Find(call.Get(number));
        RebuiltExamLog? built = null;
        IReadOnlyList<ListedErasure> repeated = [];
        var wish = new RestoreWish
        {
            Place = backups,
            Number = chosen.Number,
            Envelope = envelope.ToOpen(call, chosen.Envelope, ask: true)!,
            DataFolder = folder,
            Heads = [.. (call.Get(head) ?? []).Select(HeadText.Read)],
            OrderedSince = [ErasureList.FileName, ErasureList.ToRepeatFileName],
            MakeReady = (beside, later) =>
            {
                repeated = RepeatedErasures.Prepare(RealDisk.Instance, beside.DataFolder, chosen.Sequence, later.Files);
                built = Rebuild(call, beside, cancel);
                BackupNotes.Restored(call, beside, chosen.Number, backups.Folder);
            },
        };
        var restored = await Task.Run(() => BackupRestore.Run(wish, cancel), cancel).ConfigureAwait(false);
        if (call.Get(json))
        {
            call.PrintJson(Document(restored, built, repeated));
        }
        else
        {
            Print(call, backups, restored, built, folder);
            RestoredErasures.Print(call, restored, repeated, folder);
        }

        if (restored.Report.IsSound)
        {
            return RestoredErasures.AreKnown(call, restored) ? ExitCode.Done : ExitCode.Damaged;
        }

        call.Remark(
            "pupilbridge: the journal was damaged already when it was backed up; see 'pupilbridge journal verify'."
        );
        return ExitCode.Damaged;
    }

    /// <summary>The exam log is a projection and no part of a backup. Without the keys of an encrypted journal it has to wait.</summary>
    private static RebuiltExamLog? Rebuild(Call call, JournalFolder folder, CancellationToken cancel)
    {
        try
        {
            return BridgeDesk.Rebuilt(
                OfflineFolder.Rebuild(
                    OfflineParts.For(call, JournalPlace.Existing(folder.DataFolder)),
                    "restored from a backup",
                    cancel
                )
            );
        }
        catch (Exception missing) when (missing is JournalKeyException or KeyException or BridgeStartException)
        {
            call.Remark($"pupilbridge: the exam log could not be built yet: {missing.Message}");
            call.Remark("Put the key file where the settings say, and run 'pupilbridge journal rebuild'.");
            return null;
        }
    }

    private static void Print(Call call, BackupPlace backups, Restored restored, RebuiltExamLog? built, string folder)
    {
        var catalogue = restored.Catalogue;
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Backup {catalogue.Number} of {BackupArguments.Moment(catalogue.MadeAt)} is restored to {folder}."
            )
        );
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  The journal was checked whole: {restored.Report.Records} records, head {restored.Report.Head}."
            )
        );
        if (built is not null)
        {
            call.Print(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  The exam log was built of it: {built.Documents} documents, digest {built.Digest}."
                )
            );
        }

        if (backups.Numbers[^1] != catalogue.Number)
        {
            call.Print(
                $"  There are later backups, up to number {backups.Numbers[^1].ToString(CultureInfo.InvariantCulture)}."
            );
        }

        call.Print(
            "  What was recorded after that backup is not in it. Events that instruments have dropped since will stand in the journal as gaps."
        );
        foreach (var what in catalogue.LeftOut)
        {
            call.Print($"  Was not in the backup: {what}");
        }

        call.Print(
            "Never let two services run with the same host number: stop the old one for good before this one is started."
        );
    }

    private static object Document(Restored restored, RebuiltExamLog? built, IReadOnlyList<ListedErasure> repeated) =>
        new
        {
            restored.Catalogue.Number,
            MadeAt = restored.Catalogue.MadeAt.UtcDateTime,
            Head = restored.Report.Head.ToString(),
            restored.Report.IsSound,
            restored.Report.Records,
            restored.Files,
            ExamLog = built,
            ErasuresRepeated = repeated.Select(RestoredErasures.Document),
            ErasuresKnownUpTo = restored.Later.KnownUpTo.UtcDateTime,
            LaterBackupsUnread = restored.Later.Unread,
            restored.Catalogue.LeftOut,
        };
}
