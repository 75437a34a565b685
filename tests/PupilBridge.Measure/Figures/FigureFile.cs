using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace PupilBridge.Measure.Figures;

/// <summary>
/// One file of measured values under stable keys, with the command, the machine and the commit beside them. Written by the
/// program that measured them; values of parts that were not measured in this run are kept from the run before.
/// </summary>
internal sealed class FigureFile(string path)
{
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true };
    private readonly JsonObject values = Load(path);

    public void Set(string key, double value, int digits = 1) => values[key] = Math.Round(value, digits);

    public void Set(string key, long value) => values[key] = value;

    public void Set(string key, JsonNode value) => values[key] = value;

    /// <summary>Writes the file.</summary>
    /// <param name="part">Which part was measured by which command.</param>
    /// <param name="command">The command.</param>
    /// <param name="disk">A path on the disk that was measured.</param>
    public void Save(string part, string command, string disk)
    {
        var runs = values["runs"] as JsonObject ?? [];
        values["runs"] = runs;
        runs[part] = new JsonObject
        {
            ["command"] = command,
            ["date"] = TimeProvider.System.GetUtcNow().ToString("yyyy-MM-dd"),
            ["commit"] = Commit(),
            ["cores"] = Environment.ProcessorCount,
            ["processor"] = Processor(),
            ["runtime"] = RuntimeInformation.FrameworkDescription,
            ["system"] = RuntimeInformation.OSDescription,
            ["file_system"] = new DriveInfo(disk).DriveFormat,
            ["load_before"] = LoadBefore,
        };
        Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path))!);
        File.WriteAllText(path, values.ToJsonString(Readable) + "\n");
    }

    /// <summary>The machine's load over the last minute when the program began: a busy machine measures itself.</summary>
    public static string LoadBefore { get; } = File.ReadAllText("/proc/loadavg").Split(' ')[0];

    private static JsonObject Load(string path) =>
        File.Exists(path) && JsonNode.Parse(File.ReadAllText(path)) is JsonObject known ? known : [];

    private static string Processor() =>
        File.ReadLines("/proc/cpuinfo")
            .FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))
            ?.Split(':')[1]
            .Trim()
        ?? "unknown";

    /// <summary>The commit; <c>-dirty</c> where a file that is none of these files of values differs from it.</summary>
    private static string Commit() =>
        Git("rev-parse", "--short", "HEAD") is { Length: > 0 } commit
            ? commit + (Git("status", "--porcelain", "--", ":/", ":(exclude,top)docs/figures") is "" ? "" : "-dirty")
            : "unknown";

    private static string? Git(params string[] arguments)
    {
        try
        {
            using var git = Process.Start(new ProcessStartInfo("git", arguments) { RedirectStandardOutput = true });
            return git?.StandardOutput.ReadToEnd().Trim();
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
