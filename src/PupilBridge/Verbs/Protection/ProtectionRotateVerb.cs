using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Verbs.Protection;

/// <summary>
/// <c>protection rotate</c>: another master key. Only keys are wrapped anew; the journal and the exam log stay as they are. The service
/// must be stopped: it has the old keys in memory.
/// </summary>
internal sealed class ProtectionRotateVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public ProtectionRotateVerb()
        : base(
            "rotate",
            "Makes a new master key, wraps all keys of the data folder under it, and drops the old one. Takes a moment; the service must be stopped."
        )
    {
        Add(json);
        Example("pupilbridge protection rotate", "after the old key file may have been seen by somebody");
        EndsWith(ExitCode.NotFound, ExitCode.InUse, ExitCode.Storage);
        Does((call, _) => Task.FromResult(Rotate(call)));
    }

    private ExitCode Rotate(Call call)
    {
        var data = DataFolderChoice.For(call);
        var file = Settings.Read(data, new Dictionary<string, string?>()).OrFail().Protection.KeyFile;
        var folder = JournalPlace.Existing(data);
        using var folderLock = RealDisk.Instance.Lock(folder);
        var holders = KeyHolders.Of(RealDisk.Instance, data);
        // A file that the service manager hands over is changed by whoever makes it; what is left to do here is to wrap the keys.
        var outcome = file.IsHandedOver ? KeyRotation.Finish(file, holders) : KeyRotation.Run(file, holders, call.Time);
        if (call.Get(json))
        {
            call.PrintJson(
                new
                {
                    Current = outcome.Current.ToString(),
                    outcome.Wrapped,
                    Dropped = outcome.NotNeeded.Select(id => id.ToString()),
                }
            );
            return ExitCode.Done;
        }

        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{outcome.Wrapped} keys are wrapped under master key {outcome.Current} now."
            )
        );
        foreach (var id in outcome.NotNeeded)
        {
            call.Print(
                file.IsHandedOver
                    ? $"Master key {id} opens nothing any more; take it out of the credential."
                    : $"Master key {id} was dropped."
            );
        }

        call.Print(
            $"Keep a copy of {file.Path} apart from the data and its backups. Backups made before need the old key file."
        );
        return ExitCode.Done;
    }
}
