using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Verbs.Journal;

namespace PupilBridge.Verbs.Backups;

/// <summary><c>backup</c>: a backup of the data folder, beside a running service or without one.</summary>
internal sealed class BackupVerb : Verb
{
    private readonly Argument<string> destination = BackupArguments.Place("DESTINATION");
    private readonly EnvelopeOptions envelope = new();
    private readonly Option<bool> json = CommonOptions.Json();

    private readonly Option<int?> keep = new("--keep")
    {
        Description = "Afterwards delete all but the latest N backups there. Without it nothing is ever deleted.",
        HelpName = "N",
    };

    public BackupVerb()
        : base(
            "backup",
            "Makes an encrypted backup of the data folder beside the running service, writes only what is new there, and reads it back "
                + "before it says that it is done. Restore it with 'pupilbridge restore'."
        )
    {
        Add(destination);
        foreach (
            var option in (ReadOnlySpan<Option>)
                [envelope.PassPhraseFile, envelope.Recipient, envelope.Unencrypted, keep, json]
        )
        {
            Add(option);
        }

        keep.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && int.TryParse(token.Value, out var n) && n < 1)
            {
                result.AddError($"--keep is '{n}'; at least one backup is kept.");
            }
        });
        Example(
            "pupilbridge backup /media/safe/quayside --pass-phrase-file /root/backup-pass-phrase",
            "the daily backup"
        );
        Example(
            "pupilbridge backup /media/safe/quayside --recipient keeper.asc --keep 90",
            "one that only the keeper can open"
        );
        EndsWith(
            ExitCode.NotFound,
            ExitCode.Refused,
            ExitCode.InUse,
            ExitCode.Damaged,
            ExitCode.NoService,
            ExitCode.Storage
        );
        Add(new BackupListVerb());
        Add(new BackupVerifyVerb());
        Action = new OwnWork();
        Does(BackUpAsync);
    }

    private async Task<ExitCode> BackUpAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        var place = BackupArguments.In(call.Get(destination)!);
        RefuseInside(folder.DataFolder, place.Folder);
        var seal = envelope.ToSeal(call);
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        await BackupNotes.BeginAsync(call, folder, service?.Desk, place.Folder, cancel).ConfigureAwait(false);
        var source = new BackupSource
        {
            Folder = folder,
            RunningHead = service is null
                ? null
                : HeadText.Of(await service.Desk.HeadAsync(cancel).ConfigureAwait(false)),
            Program = DeskHello.Own.Program,
            Time = call.Time,
        };
        var made = await Task.Run(() => BackupMaker.Make(source, place, seal, cancel), cancel).ConfigureAwait(false);
        var deleted = call.Get(keep) is { } n ? BackupRetention.Keep(place, n) : [];
        if (call.Get(json))
        {
            call.PrintJson(Document(made, deleted));
        }
        else
        {
            Print(call, place, made, deleted);
        }

        return made.Catalogue.Segments.All(segment => segment.Damage is null) ? ExitCode.Done : Damaged(call, made);
    }

    private static void RefuseInside(string dataFolder, string destination)
    {
        if (
            (destination + Path.DirectorySeparatorChar).StartsWith(
                dataFolder + Path.DirectorySeparatorChar,
                StringComparison.Ordinal
            )
        )
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{destination} lies in the data folder itself, and would be lost with it.",
                "Name a folder on another disk."
            );
        }
    }

    private static void Print(Call call, BackupPlace place, BackupMade made, IReadOnlyList<int> deleted)
    {
        var catalogue = made.Catalogue;
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Backup {catalogue.Number} is complete: the journal up to sequence {catalogue.Sequence}, in {place.Folder}."
            )
        );
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  {(made.WentOn ? "Went on with an interrupted one; " : "")}{made.NewPieces} of {catalogue.Pieces.Count()} pieces are new, "
            )
                + BackupArguments.Size(made.NewBytes)
                + " of "
                + BackupArguments.Size(catalogue.Pieces.Sum(piece => piece.StoredBytes))
                + "."
        );
        call.Print(
            made.WasOpened
                ? "  The new pieces were read back from there, opened, and their part of the chain was checked up to the head."
                : "  The new pieces were read back from there byte for byte. Only the private key opens them: where it is kept, try it now "
                    + "and then with 'pupilbridge backup verify --private-key'."
        );
        foreach (var what in catalogue.LeftOut)
        {
            call.Print($"  Not in it: {what}");
        }

        var numbers = place.Numbers;
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  Backups there: {numbers.Count}, from number {numbers[0]} on{(deleted.Count > 0 ? $"; deleted by --keep: {deleted.Count}" : "")}."
            )
        );
        call.Print($"  Head: {catalogue.Head}");
    }

    private static ExitCode Damaged(Call call, BackupMade made)
    {
        foreach (var segment in made.Catalogue.Segments.Where(segment => segment.Damage is not null))
        {
            call.Remark(
                $"pupilbridge: segment {segment.Number} of the journal itself is damaged: {segment.Damage}. It is in the backup as it is."
            );
        }

        call.Remark(
            "See what is missing with 'pupilbridge journal verify', keep the earlier backups, and compare with them."
        );
        return ExitCode.Damaged;
    }

    private static object Document(BackupMade made, IReadOnlyList<int> deleted) =>
        new
        {
            made.Catalogue.Number,
            MadeAt = made.Catalogue.MadeAt.UtcDateTime,
            Head = made.Catalogue.Head.ToString(),
            made.Catalogue.Envelope,
            Pieces = made.Catalogue.Pieces.Count(),
            Bytes = made.Catalogue.Pieces.Sum(piece => piece.StoredBytes),
            made.NewPieces,
            made.NewBytes,
            made.WentOn,
            made.WasOpened,
            made.Catalogue.LeftOut,
            Deleted = deleted,
            DamagedSegments = made.Catalogue.Segments.Where(s => s.Damage is not null).Select(s => s.Number),
        };
}
