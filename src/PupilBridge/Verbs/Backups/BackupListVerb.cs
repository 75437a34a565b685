using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Safekeeping.Backups;

namespace PupilBridge.Verbs.Backups;

/// <summary><c>backup list</c>: the complete backups of a destination; no pass phrase is needed.</summary>
internal sealed class BackupListVerb : Verb
{
    private readonly Argument<string> place = BackupArguments.Place("DESTINATION");
    private readonly Option<bool> json = CommonOptions.Json();

    public BackupListVerb()
        : base("list", "Lists the complete backups of a folder, the oldest first. No pass phrase is needed.")
    {
        Add(place);
        Add(json);
        Example("pupilbridge backup list /media/safe/quayside", "what there is, and up to when");
        EndsWith(ExitCode.NotFound, ExitCode.Damaged, ExitCode.Storage);
        Does((call, _) => Task.FromResult(List(call)));
    }

    private ExitCode List(Call call)
    {
        var backups = BackupArguments.In(call.Get(place)!);
        if (backups.Numbers.Count == 0)
        {
            backups.Find(null);
        }

        List<Catalogue> found = [];
        var code = ExitCode.Done;
        foreach (var number in backups.Numbers)
        {
            try
            {
                found.Add(backups.Find(number));
            }
            catch (BackupException damaged) when (damaged.Trouble == BackupTrouble.Damaged)
            {
                call.Remark($"pupilbridge: {damaged.Message} {damaged.Next}");
                code = ExitCode.Damaged;
            }
        }

        if (UnfinishedBackup.At(backups) is { } unfinished)
        {
            call.Remark(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"pupilbridge: an unfinished backup lies there too ({unfinished.Pieces} complete pieces): it was interrupted, or is being made "
                ) + "now. It is no backup yet; the next 'pupilbridge backup' goes on with it."
            );
        }

        if (call.Get(json))
        {
            call.PrintJson(found.Select(Document));
            return code;
        }

        var table = new TextTable("backup", "made at", "up to sequence", "size", "sealed as", "chain");
        foreach (var catalogue in found)
        {
            table.Add(
                catalogue.Number.ToString(CultureInfo.InvariantCulture),
                BackupArguments.Moment(catalogue.MadeAt),
                catalogue.Sequence.ToString(CultureInfo.InvariantCulture),
                BackupArguments.Size(catalogue.Pieces.Sum(piece => piece.StoredBytes)),
                catalogue.Envelope.Split(' ')[0],
                catalogue.Chain[..16] + "…"
            );
        }

        table.Print(call, "No backup there can be read.");
        return code;
    }

    private static object Document(Catalogue catalogue) =>
        new
        {
            catalogue.Number,
            MadeAt = catalogue.MadeAt.UtcDateTime,
            Head = catalogue.Head.ToString(),
            catalogue.Program,
            catalogue.Envelope,
            Pieces = catalogue.Pieces.Count(),
            Bytes = catalogue.Pieces.Sum(piece => piece.StoredBytes),
            catalogue.LeftOut,
            DamagedSegments = catalogue.Segments.Where(s => s.Damage is not null).Select(s => s.Number),
        };
}
