using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Backups;

/// <summary>A clinic's data folder, a destination for its backups and a second machine, used through the executable.</summary>
[SupportedOSPlatform("linux")]
internal sealed class BackupFolders : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public BackupFolders() => File.WriteAllText(PassPhrase, "quay crane rope tide seven\n");

    public string Data => At("data");

    public string Second => At("second");

    public string Safe => At("safe");

    public string PassPhrase => At("pass-phrase");

    public string At(params string[] parts) => folder.At(parts);

    /// <summary>The service with one instrument, which is on.</summary>
    public static async Task<Executable> Serve(string data, QuayInstrument instrument)
    {
        var service = Executable.Start("serve", "--data", data, "--port", instrument.Port);
        await service.Says("Listening on");
        await instrument.Greeted();
        await instrument.AllAcknowledged();
        return service;
    }

    /// <summary>An exam of a patient on the running service, made ready.</summary>
    public async Task<long> Examined(string patient)
    {
        var opened = await Json("exam", "open", "--patient", patient, "--who", "MK", "--json", "--data", Data);
        await Seen("exam", "ready", "--who", "MK", "--data", Data);
        return opened[0].GetProperty("exam").GetInt64();
    }

    public Task<Outcome> Erased(string patient, string? data = null) =>
        Done(
            "patients",
            "erase",
            patient,
            "--yes",
            "--ordered-by",
            "DPO",
            "--reason",
            "request 17",
            "--who",
            "AD",
            "--data",
            data ?? Data
        );

    public Task<Outcome> BackUp() => Done("backup", Safe, "--pass-phrase-file", PassPhrase, "--data", Data);

    public Task<Outcome> Restored(params string[] more) =>
        Executable.Run(["restore", Safe, "--pass-phrase-file", PassPhrase, "--data", Second, .. more]);

    public static async Task Stopped(Executable service)
    {
        service.Signal("TERM");
        Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
    }

    /// <summary>Runs a command that must succeed.</summary>
    public static async Task<Outcome> Done(params string[] words)
    {
        var outcome = await Executable.Run(words);
        Assert.True(
            outcome.Code == ExitCode.Done,
            $"{string.Join(' ', words)}: {outcome.Code} {outcome.Error}{outcome.Out}"
        );
        return outcome;
    }

    /// <summary>Runs a command that only looks, and must succeed, without a process of its own.</summary>
    public static async Task<Outcome> Seen(params string[] words)
    {
        var outcome = await Invoked.Run(words);
        Assert.True(
            outcome.Code == ExitCode.Done,
            $"{string.Join(' ', words)}: {outcome.Code} {outcome.Error}{outcome.Out}"
        );
        return outcome;
    }

    public static async Task<JsonElement> Json(params string[] words)
    {
        using var document = JsonDocument.Parse((await Seen(words)).Out);
        return document.RootElement.Clone();
    }

    public void Dispose() => folder.Dispose();
}
