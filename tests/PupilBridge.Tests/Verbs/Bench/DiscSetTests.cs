using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Bench;

/// <summary><c>calibration discs</c> on a data folder without a service.</summary>
public sealed class DiscSetTests : IDisposable
{
    private const string Head = "name,diameter_mm,standard_uncertainty_mm";
    private readonly TemporaryFolder folder = new();

    public DiscSetTests() => WrittenJournal.Write(Data, WrittenJournal.Morning);

    private string Data => folder.At("data");

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_set_is_entered_and_listed_as_its_certificate_describes_it()
    {
        var added = await Add([Head, "D6,6.001,0.0015", "D2,2.003,0.0015", "D4,3.998,0.002"]);
        Assert.Equal(ExitCode.Done, added.Code);
        Assert.Contains("set 'quay' of 3 discs", added.Out, StringComparison.Ordinal);

        var listed = await Run("calibration", "discs", "list", "--json");
        Assert.Equal(ExitCode.Done, listed.Code);
        using var document = JsonDocument.Parse(listed.Out);
        var set = Assert.Single(document.RootElement.EnumerateArray());
        Assert.Equal("D-2026-17", set.GetProperty("certificateNumber").GetString());
        Assert.Equal("2030-01-14", set.GetProperty("expires").GetString());
        Assert.False(set.GetProperty("isExpired").GetBoolean());
        Assert.Equal(0.002, set.GetProperty("commonUncertaintyMillimetres").GetDouble());
        Assert.Equal(
            [("D2", 2.003, 0.0015), ("D4", 3.998, 0.002), ("D6", 6.001, 0.0015)],
            set.GetProperty("discs")
                .EnumerateArray()
                .Select(disc =>
                    (
                        disc.GetProperty("name").GetString()!,
                        disc.GetProperty("diameterMillimetres").GetDouble(),
                        disc.GetProperty("standardUncertaintyMillimetres").GetDouble()
                    )
                )
        );
        var text = await Run("calibration", "discs", "list");
        Assert.Contains("D-2026-17", text.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_set_of_the_same_name_takes_the_place_of_the_earlier_one()
    {
        Assert.Equal(ExitCode.Done, (await Add([Head, "A,2,0.002", "B,4,0.002", "C,6,0.002"])).Code);
        Assert.Equal(ExitCode.Done, (await Add([Head, "A,2.1,0.002", "B,4.1,0.002", "C,6.1,0.002"])).Code);
        var listed = await Run("calibration", "discs", "list");
        Assert.Contains("2.1", listed.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("  2.0 ", listed.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "decimal comma",
        "name;diameter_mm;standard_uncertainty_mm",
        "A;2,003;0,0015",
        "B;4;0.002",
        "C;6;0.002"
    )]
    [InlineData(
        "line 3: disc 'B' has a diameter of 4000 mm; is it in µm?",
        Head,
        "A,2,0.002",
        "B,4000,0.002",
        "C,6,0.002"
    )]
    [InlineData("is in µm", "name,diameter_um,standard_uncertainty_mm", "A,2000,2", "B,4000,2", "C,6000,2")]
    [InlineData("lines 2, 4 name the same disc, 'A'", Head, "A,2,0.002", "B,4,0.002", "A,2,0.002")]
    [InlineData("names columns and has no row", Head)]
    [InlineData("holds nothing")]
    [InlineData("At least three discs", Head, "A,2,0.002", "B,4,0.002")]
    [InlineData("All diameters are the same", Head, "A,4,0.002", "B,4,0.002", "C,4,0.002")]
    [InlineData("as large as the disc", Head, "A,2,3", "B,4,0.002", "C,6,0.002")]
    [InlineData("no number", Head, "A,two,0.002", "B,4,0.002", "C,6,0.002")]
    public async Task What_is_no_set_is_refused_with_its_reason_and_nothing_is_recorded(
        string why,
        params string[] lines
    )
    {
        var refused = await Add(lines);
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains(why, refused.Error, StringComparison.Ordinal);
        Assert.Empty(refused.Out);
        var listed = await Run("calibration", "discs", "list", "--json");
        Assert.Equal("[]", listed.Out.Trim());
    }

    [Fact]
    public async Task A_column_that_is_missing_is_named()
    {
        var missing = await Add(["name,diameter_mm", "A,2", "B,4", "C,6"]);
        Assert.Equal(ExitCode.NotFound, missing.Code);
        Assert.Contains("standard_uncertainty_mm", missing.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_not_there_is_said()
    {
        var missing = await AddFile(folder.At("none.csv"));
        Assert.Equal(ExitCode.NotFound, missing.Code);
    }

    private async Task<Outcome> Add(string[] lines)
    {
        using var table = new TableFile(lines);
        return await AddFile(table.Path);
    }

    private Task<Outcome> AddFile(string path) =>
        Run(
            "calibration",
            "discs",
            "add",
            path,
            "--name",
            "quay",
            "--certificate",
            "D-2026-17",
            "--issuer",
            "the laboratory",
            "--certified",
            "2026-01-15",
            "--expires",
            "2030-01-14",
            "--common-u",
            "0.002",
            "--who",
            "TE"
        );

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", Data]);
}
