using Microsoft.Extensions.Configuration;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.People;
using PupilBridge.CommandLine;
using PupilBridge.Console.Hosting;
using PupilBridge.Desk;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Sending;
using PupilBridge.Worker.Options;

namespace PupilBridge.Configuration;

/// <summary>All settings of one data folder, read from every source and checked, with all that is wrong.</summary>
internal sealed class Settings
{
    private Settings(IConfigurationRoot root, BridgeOptions bridge, IReadOnlyList<ConfigurationFault> faults) =>
        (Root, Bridge, Faults) = (root, bridge, faults);

    /// <summary>The settings as text.</summary>
    public IConfigurationRoot Root { get; }

    /// <summary>What the worker is told.</summary>
    public BridgeOptions Bridge { get; }

    /// <summary>What the local socket takes.</summary>
    public DeskLimits Desk => HouseSettings.Limits(Root);

    /// <summary>How the console is served; null where it is not to run.</summary>
    public ConsoleSettings? Web => WebSettings.Read(Root, Bridge.DataFolder);

    /// <summary>When wrong passwords lock a name.</summary>
    public LockoutRule Lockout => PeopleSettings.Read(Root);

    /// <summary>What lanes remind of.</summary>
    public LaneSettings Lanes => LaneOptions.Read(Root);

    /// <summary>The light of the site, and the limits of the criteria.</summary>
    public CriteriaSettings Criteria => new() { Site = SiteSettings.Read(Root), Limits = CriteriaOptions.Read(Root) };

    /// <summary>What the clinic set for the service bench.</summary>
    public BenchSettings Bench => BenchOptions.Read(Root);

    /// <summary>The folder that is watched for day's lists; null for none.</summary>
    public DayListWatchOptions? DayLists => DayListSettings.Watched(Root);

    /// <summary>By which words a day's list names its columns.</summary>
    public DayListHeadings DayListHeadings => DayListSettings.HeadingsOf(Root);

    /// <summary>What is handed to other systems as FHIR or HL7 v2; read when asked for, and not at start.</summary>
    public FhirSettings Fhir => FhirOptions.Read(Root);

    /// <summary>To whom signed records are sent, and how; null where nothing is sent.</summary>
    public SendingSettings? Sending => SendingOptions.Read(Root);

    /// <summary>Whether files are encrypted, and where the master keys lie.</summary>
    public ProtectionSettings Protection => ProtectionOptions.Read(Root, Bridge.DataFolder);

    /// <summary>Everything that is wrong; empty if the settings can be used.</summary>
    public IReadOnlyList<ConfigurationFault> Faults { get; }

    /// <summary>Settings files that are looked for, weakest first.</summary>
    /// <param name="dataFolder">Full path of the data folder.</param>
    /// <returns>Full paths.</returns>
    public static IReadOnlyList<string> Files(string dataFolder) =>
        [ConfigurationSources.MachineFile, Path.Combine(dataFolder, ConfigurationSources.FileName)];

    /// <summary>Reads and checks all settings.</summary>
    /// <param name="dataFolder">Full path of the data folder.</param>
    /// <param name="set">Keys and values from the command line.</param>
    /// <returns>The settings and what is wrong with them.</returns>
    public static Settings Read(string dataFolder, IReadOnlyDictionary<string, string?> set)
    {
        var faults = new List<ConfigurationFault>();
        var root = ConfigurationSources.Gather(Files(dataFolder), set, faults);
        var bridge = new BridgeOptions { DataFolder = dataFolder };
        var found = BridgeOptionsReader
            .Read(root, bridge)
            .Select(message => (Key: message.Split(' ')[0], Message: message));
        faults.AddRange(
            found
                .Concat(HouseSettings.Faults(root))
                .Select(fault => new ConfigurationFault(
                    fault.Key,
                    fault.Message,
                    ConfigurationSources.Of(root, fault.Key)
                ))
        );
        if (!string.Equals(bridge.DataFolder, dataFolder, StringComparison.Ordinal))
        {
            faults.Add(
                new ConfigurationFault(
                    "Bridge:DataFolder",
                    "Bridge:DataFolder cannot be set here, because the settings are read from the data folder; name it with --data DIR.",
                    ConfigurationSources.Of(root, "Bridge:DataFolder")
                )
            );
        }

        return new Settings(root, bridge, faults);
    }

    /// <summary>The settings of a demo: its own and no others, so that it is the same on every machine.</summary>
    /// <param name="dataFolder">Full path of the demo's data folder.</param>
    /// <param name="set">Keys and values.</param>
    /// <returns>The settings.</returns>
    public static Settings ForDemo(string dataFolder, IReadOnlyDictionary<string, string?> set)
    {
        var root = new ConfigurationBuilder().AddInMemoryCollection(set).Build();
        var bridge = new BridgeOptions { DataFolder = dataFolder };
        var faults = BridgeOptionsReader.Read(root, bridge);
        root["Web:Enabled"] = "false";
        return new Settings(root, bridge, [.. faults.Select(f => new ConfigurationFault(f, f, "the demo"))]).OrFail();
    }

    /// <summary>Ends the command if anything is wrong, with all faults at once.</summary>
    /// <returns>The same settings.</returns>
    /// <exception cref="CommandFailure">Something is wrong.</exception>
    public Settings OrFail() =>
        Faults.Count == 0
            ? this
            : throw new CommandFailure(
                ExitCode.Configuration,
                $"The configuration has {Count(Faults.Count)}:"
                    + string.Concat(
                        Faults.Select(fault => $"{Environment.NewLine}  {fault.Message} (from {fault.Source})")
                    ),
                "Mend them, look with 'pupilbridge config check', and start again."
            );

    private static string Count(int faults) => faults == 1 ? "one fault" : $"{faults} faults";
}
