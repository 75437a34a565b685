using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Safekeeping.Backups;

namespace PupilBridge.Verbs.Backups;

/// <summary><c>backup verify</c>: every piece of a backup, and where it can be opened the chain in it.</summary>
internal sealed class BackupVerifyVerb : Verb
{
    private readonly Argument<string> place = BackupArguments.Place("DESTINATION");
    private readonly Option<int?> number = BackupArguments.Number();
    private readonly EnvelopeOptions envelope = new();
    private readonly Option<bool> json = CommonOptions.Json();

    public BackupVerifyVerb()
        : base(
            "verify",
            "Reads every piece of a backup. With the pass phrase or private key it opens them and checks the whole chain; without, it "
                + "compares their bytes with the catalogue."
        )
    {
        Add(place);
        foreach (var option in (ReadOnlySpan<Option>)[number, envelope.PassPhraseFile, envelope.PrivateKey, json])
        {
            Add(option);
        }

        Example(
            "pupilbridge backup verify /media/safe/quayside --pass-phrase-file /root/backup-pass-phrase",
            "checks the latest backup whole"
        );
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Damaged, ExitCode.Storage);
        Does(VerifyAsync);
    }

    private async Task<ExitCode> VerifyAsync(Call call, CancellationToken cancel)
    {
        var backups = BackupArguments.In(call.Get(place)!);
        var which = call.Get(number);
        var opens = envelope.ToOpen(call, backups.Find(which).Envelope, ask: false);
        var seen = await Task.Run(() => BackupCheck.Run(backups, which, opens, cancel), cancel).ConfigureAwait(false);
        if (UnfinishedBackup.At(backups) is not null)
        {
            call.Remark(
                "pupilbridge: an unfinished backup lies there too; what is said here is of the complete one. Run 'pupilbridge backup' again."
            );
        }

        if (call.Get(json))
        {
            call.PrintJson(
                new
                {
                    seen.Catalogue.Number,
                    Head = seen.Catalogue.Head.ToString(),
                    seen.Bytes,
                    seen.WasOpened,
                }
            );
            return ExitCode.Done;
        }

        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Backup {seen.Catalogue.Number} of {BackupArguments.Moment(seen.Catalogue.MadeAt)}: {seen.Catalogue.Pieces.Count()} pieces, "
            )
                + BackupArguments.Size(seen.Bytes)
                + (
                    seen.WasOpened
                        ? ". Every piece opens, and the journal in it is whole up to its head."
                        : ". Every piece is there as it was written. Whether it opens was not tried: name --pass-phrase-file or --private-key."
                )
        );
        call.Print($"  Head: {seen.Catalogue.Head}");
        return ExitCode.Done;
    }
}
