using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;

namespace PupilBridge.Verbs.Config;

/// <summary><c>config check</c>: everything that is wrong in the settings, at once.</summary>
internal sealed class ConfigCheckVerb : Verb
{
    private readonly Option<string[]> set = SetOption.Make();
    private readonly Option<bool> json = CommonOptions.Json();

    public ConfigCheckVerb()
        : base("check", "Checks all settings and names every fault with its key, its value and what is allowed.")
    {
        Add(set);
        Add(json);
        Example("pupilbridge config check", "checks the settings that 'serve' would use");
        Example("pupilbridge config check --set Bridge:Baud=57600", "checks them with one value changed");
        EndsWith(ExitCode.Configuration);
        Does((call, _) => Task.FromResult(Check(call)));
    }

    private ExitCode Check(Call call)
    {
        var folder = DataFolderChoice.For(call);
        var settings = Settings.Read(folder, SetOption.Values(call.Get(set)));
        var files = Settings.Files(folder).Select(file => new { Path = file, Exists = File.Exists(file) }).ToList();
        if (call.Get(json))
        {
            call.PrintJson(
                new
                {
                    Valid = settings.Faults.Count == 0,
                    DataFolder = folder,
                    Files = files,
                    settings.Faults,
                }
            );
            return settings.Faults.Count == 0 ? ExitCode.Done : ExitCode.Configuration;
        }

        foreach (var file in files)
        {
            call.Print($"{(file.Exists ? "read     " : "not there")}  {file.Path}");
        }

        settings.OrFail();
        call.Print("The configuration is valid.");
        return ExitCode.Done;
    }
}
