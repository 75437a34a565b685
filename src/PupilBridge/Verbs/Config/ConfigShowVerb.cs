using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Worker.Options;

namespace PupilBridge.Verbs.Config;

/// <summary><c>config show</c>: every setting with its value, its default and what is allowed.</summary>
internal sealed class ConfigShowVerb : Verb
{
    private readonly Option<string[]> set = SetOption.Make();
    private readonly Option<bool> json = CommonOptions.Json();

    public ConfigShowVerb()
        : base("show", "Lists every setting: the value in use, where it comes from, the default, and what is allowed.")
    {
        Add(set);
        Add(json);
        Example("pupilbridge config show", "lists the settings that 'serve' would use");
        Does((call, _) => Task.FromResult(Show(call)));
    }

    private ExitCode Show(Call call)
    {
        var settings = Settings.Read(DataFolderChoice.For(call), SetOption.Values(call.Get(set)));
        var rows = Rows(settings);
        if (call.Get(json))
        {
            call.PrintJson(rows);
            return ExitCode.Done;
        }

        foreach (var row in rows)
        {
            call.Print($"{row.Key} = {row.Value}   (from {row.Source})");
            call.Print($"    {row.Meaning}; default {row.Default}; allowed is {row.Allowed}");
        }

        return ExitCode.Done;
    }

    private static List<Row> Rows(Settings settings) =>
        [
            .. BridgeSettings
                .All.Where(s => s.Key != nameof(BridgeOptions.DataFolder))
                .Select(s => new Row(
                    s.FullKey,
                    s.Write(settings.Bridge) is { Length: > 0 } value ? value : s.Default,
                    ConfigurationSources.Of(settings.Root, s.FullKey),
                    s.Meaning,
                    s.Default,
                    s.Allowed
                )),
            .. HouseSettings.All.Select(s => new Row(
                s.Key,
                settings.Root[s.Key] ?? s.Default,
                ConfigurationSources.Of(settings.Root, s.Key),
                s.Meaning,
                s.Default,
                s.Allowed
            )),
        ];

    private sealed record Row(string Key, string Value, string Source, string Meaning, string Default, string Allowed);
}
