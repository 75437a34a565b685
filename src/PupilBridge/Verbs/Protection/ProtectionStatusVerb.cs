using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Verbs.Protection;

/// <summary><c>protection status</c>: what is encrypted, and under which master key. It changes nothing.</summary>
internal sealed class ProtectionStatusVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public ProtectionStatusVerb()
        : base(
            "status",
            "What of the data folder is encrypted, where the master keys lie, and what each of them opens."
        )
    {
        Add(json);
        Example("pupilbridge protection status", "segments, master keys, and what is in the clear");
        EndsWith(ExitCode.NotFound, ExitCode.Storage);
        Does((call, _) => Task.FromResult(Show(call)));
    }

    private ExitCode Show(Call call)
    {
        var data = DataFolderChoice.For(call);
        var settings = Settings.Read(data, new Dictionary<string, string?>()).Protection;
        var folder = JournalPlace.Existing(data);
        var (segments, encrypted) = JournalKeys.Count(RealDisk.Instance, folder);
        var (auditSegments, auditEncrypted) = JournalKeys.Count(RealDisk.Instance, AuditFolder.Of(folder));
        var holders = KeyHolders
            .Of(RealDisk.Instance, data)
            .Select(holder => (holder.Name, Uses: holder.Uses()))
            .ToList();
        var known = folder.Keys?.Keys ?? [];
        var wanted = holders.SelectMany(holder => holder.Uses.Keys).Except(known.Select(key => key.Id)).ToList();
        if (call.Get(json))
        {
            call.PrintJson(
                new
                {
                    settings.Encrypt,
                    KeyFile = settings.KeyFile.Path,
                    KeyFileIsThere = settings.KeyFile.Exists,
                    Segments = segments,
                    EncryptedSegments = encrypted,
                    AuditSegments = auditSegments,
                    EncryptedAuditSegments = auditEncrypted,
                    MasterKeys = known.Select(key => new
                    {
                        Id = key.Id.ToString(),
                        key.Made,
                        IsCurrent = key.Id == folder.Keys!.Current,
                        Opens = holders.ToDictionary(h => h.Name, h => h.Uses.GetValueOrDefault(key.Id)),
                    }),
                    MissingMasterKeys = wanted.Select(id => id.ToString()),
                }
            );
            return wanted.Count == 0 ? ExitCode.Done : ExitCode.Storage;
        }

        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Journal: {encrypted} of {segments} segments are encrypted; new ones {(settings.Encrypt ? "are" : "are not")}."
            )
        );
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Audit trail: {auditEncrypted} of {auditSegments} segments are encrypted."
            )
        );
        call.Print($"Key file: {settings.KeyFile.Path}{(settings.KeyFile.Exists ? "" : " (not there)")}");
        PrintKeys(call, folder.Keys, known, holders);
        foreach (var id in wanted)
        {
            call.Print($"MISSING: master key {id} is wanted and not in the key file.");
        }

        return wanted.Count == 0 ? ExitCode.Done : ExitCode.Storage;
    }

    private static void PrintKeys(
        Call call,
        KeyRing? ring,
        IReadOnlyList<MasterKey> known,
        List<(string Name, IReadOnlyDictionary<MasterKeyId, int> Uses)> holders
    )
    {
        var table = new TextTable("master key", "made", "", "opens");
        foreach (var key in known)
        {
            var opens = holders
                .Where(holder => holder.Uses.ContainsKey(key.Id))
                .Select(holder => string.Create(CultureInfo.InvariantCulture, $"{holder.Name} {holder.Uses[key.Id]}"));
            table.Add(
                key.Id.ToString(),
                call.LocalTime(key.Made),
                key.Id == ring!.Current ? "current" : "older",
                string.Join(", ", opens.DefaultIfEmpty("nothing"))
            );
        }

        table.Print(call, "There is no master key; the service makes one at its next start, if it is to encrypt.");
    }
}
