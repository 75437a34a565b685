using System.Text.Json.Nodes;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Fuzz;

/// <summary>Writes what a long run came to; what other programs wrote into the same file stays.</summary>
internal static class FuzzFigures
{
    public static void Save(IReadOnlyList<CampaignResult> results, double startMegabytes)
    {
        var path = Repository.File("docs/figures/reliability.json");
        var file = new FigureFile(path);
        file.Set("fuzz_lines", Sum(results, "codec", "framer"));
        file.Set("fuzz_lines_link", Sum(results, "host-link", "instrument-link"));
        file.Set("fuzz_records", Sum(results, "journal"));
        file.Set("fuzz_bodies", results.Where(r => r.Target.Unit == "bodies").Sum(r => r.Units));
        file.Set("fuzz_inputs", results.Sum(r => r.Inputs));
        file.Set("fuzz_inputs_kept", results.Sum(r => (long)r.Kept));
        file.Set("fuzz_rss_start_mb", startMegabytes);
        file.Set("fuzz_rss_end_mb", results[^1].EndMegabytes);
        var each = new JsonObject();
        foreach (var r in results)
        {
            each[r.Target.Name] = new JsonObject
            {
                ["unit"] = r.Target.Unit,
                ["units"] = r.Units,
                ["inputs"] = r.Inputs,
                ["kept"] = r.Kept,
                ["behaviours"] = r.Behaviours,
                ["seconds"] = Math.Round(r.Seconds, 1),
                ["rss_warm_mb"] = Math.Round(r.WarmMegabytes, 1),
                ["rss_end_mb"] = Math.Round(r.EndMegabytes, 1),
            };
        }

        file.Set("fuzz_targets", each);
        file.Save(
            "fuzz",
            "dotnet run -c Release --project tests/PupilBridge.Fuzz -- all",
            Path.GetDirectoryName(path)!
        );
    }

    private static long Sum(IEnumerable<CampaignResult> results, params string[] targets) =>
        results.Where(r => targets.Contains(r.Target.Name)).Sum(r => r.Units);
}
