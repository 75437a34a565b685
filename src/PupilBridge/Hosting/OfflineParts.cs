using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Findings;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Journal;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>What a command makes its own bridge of, where no service runs.</summary>
internal static class OfflineParts
{
    /// <summary>The parts for a data folder.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="folder">The data folder with its journal.</param>
    /// <returns>Parts whose options are checked by whoever opens a bridge with them.</returns>
    public static BridgeParts For(Call call, JournalFolder folder) =>
        new()
        {
            Options = Settings.Read(folder.DataFolder, new Dictionary<string, string?>()).Bridge,
            ProgramVersion = DeskHello.Own.Program,
            Time = call.Time,
            Keys = folder.Keys,
            Encrypt = MasterKeys.IsWanted(folder),
            Logger = new RemarkLog(call),
        };

    /// <summary>The audit trail as a command writes to it: protected as the service's.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="folder">The data folder with its journal.</param>
    /// <returns>Parts without the keys under which numbers of patients are sealed.</returns>
    public static AuditParts AuditOf(Call call, JournalFolder folder) =>
        new()
        {
            House = folder,
            Time = call.Time,
            ProgramVersion = DeskHello.Own.Program,
            Encrypt = MasterKeys.IsWanted(folder),
            Remark = words => call.Remark($"pupilbridge: {words}"),
            PreallocateBytes = 0,
        };

    /// <summary>The light of the site, and the limits of the criteria.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <returns>As the service would have them.</returns>
    /// <exception cref="CommandFailure">The settings cannot be used.</exception>
    public static CriteriaSettings CriteriaOf(string dataFolder) =>
        Settings.Read(dataFolder, new Dictionary<string, string?>()).OrFail().Criteria;

    /// <summary>What the clinic set for the service bench.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <returns>As the service would have it.</returns>
    /// <exception cref="CommandFailure">The settings cannot be used.</exception>
    public static BenchSettings BenchOf(string dataFolder) =>
        Settings.Read(dataFolder, new Dictionary<string, string?>()).OrFail().Bench;
}
