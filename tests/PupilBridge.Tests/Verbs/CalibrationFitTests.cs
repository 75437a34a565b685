using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>calibration fit</c> with published data as plain tables, and with the slips that tables bring.</summary>
public sealed class CalibrationFitTests
{
    /// <summary>JCGM 100:2008, Annex H.3 (data and results read in three reproductions).</summary>
    private static readonly string[] Thermometer =
    [
        "k,t,b",
        "1,21.521,-0.171",
        "2,22.012,-0.169",
        "3,22.512,-0.166",
        "4,23.003,-0.159",
        "5,23.507,-0.164",
        "6,23.999,-0.165",
        "7,24.513,-0.156",
        "8,25.002,-0.157",
        "9,25.503,-0.159",
        "10,26.010,-0.161",
        "11,26.511,-0.160",
    ];

    /// <summary>NIST Statistical Reference Datasets, Norris, y before x as in its file (read in several reproductions).</summary>
    private static readonly string[] Norris =
    [
        "y,x",
        .. (
            "0.1,0.2 338.8,337.4 118.1,118.2 888.0,884.6 9.2,10.1 228.1,226.5 668.5,666.3 998.5,996.3 449.1,448.6 "
            + "778.9,777.0 559.2,558.2 0.3,0.4 0.1,0.6 778.1,775.5 668.8,666.9 339.3,338.0 448.9,447.5 10.8,11.6 "
            + "557.7,556.0 228.3,228.1 998.0,995.8 888.8,887.6 119.6,120.2 0.3,0.3 0.6,0.3 557.6,556.8 339.3,339.1 "
            + "888.0,887.2 998.5,999.0 778.9,779.0 10.2,11.1 117.6,118.3 228.9,229.2 668.4,669.1 449.2,448.9 0.2,0.5"
        ).Split(' '),
    ];

    [Fact]
    public async Task The_thermometer_of_the_guide_in_json()
    {
        using var file = new TableFile(Thermometer);
        var found = await Json(file, "--x", "t", "--y", "b", "--origin", "20", "--predict", "30");
        Near(-0.171203790131, found, "y1", 12);
        Near(0.002877597835, found, "u_y1", 12);
        Near(0.00218269773989, found, "y2", 14);
        Near(0.000667938773228, found, "u_y2", 15);
        Near(-0.930429603093, found, "r", 12);
        Near(0.003497563964, found, "s", 12);
        Assert.Equal(9, found.GetProperty("dof").GetInt32());
        Assert.Equal(11, found.GetProperty("n").GetInt32());
        var at30 = Assert.Single(found.GetProperty("predict").EnumerateArray());
        Near(30, at30, "x", 15);
        Near(-0.149376812732, at30, "y", 12);
        Near(0.004138595753, at30, "u", 12);
        Near(0.008277, at30, "U_k2", 6);
        Near(0.009362, at30, "U_95", 6);
    }

    /// <summary>H.3.6: an offset common to all touches y1 alone. Its factor follows the effective degrees of freedom.</summary>
    [Fact]
    public async Task A_common_offset_touches_the_intercept_alone()
    {
        using var file = new TableFile(Thermometer);
        string[] words = ["--x", "t", "--y", "b", "--origin", "20", "--predict", "30", "25", "--common-u", "0.005"];
        var found = await Json(file, words);
        Near(Math.Sqrt(Math.Pow(0.002877597835, 2) + Math.Pow(0.005, 2)), found, "u_y1", 11);
        Near(0.000667938773228, found, "u_y2", 15);
        var predicted = found.GetProperty("predict").EnumerateArray().ToList();
        Assert.Equal(2, predicted.Count);
        var u = Math.Sqrt(Math.Pow(0.004138595753, 2) + Math.Pow(0.005, 2));
        Near(u, predicted[0], "u", 11);
        // 9·u⁴/u_fit⁴ = 54.2 degrees of freedom: t = 2.0046, between those of 50 and 100 in JCGM 100:2008, Table G.2.
        Assert.InRange(predicted[0].GetProperty("U_95").GetDouble() / u, 2.0042, 2.0050);
        var known = await Json(file, [.. words, "--common-dof", "2"]);
        Assert.True(
            known.GetProperty("predict")[0].GetProperty("U_95").GetDouble()
                > predicted[0].GetProperty("U_95").GetDouble()
        );
    }

    [Theory]
    [InlineData("y1", -0.262323073774029)]
    [InlineData("u_y1", 0.232818234301152)]
    [InlineData("y2", 1.00211681802045)]
    [InlineData("u_y2", 0.429796848199937E-03)]
    [InlineData("s", 0.884796396144373)]
    [InlineData("r_squared", 0.999993745883712)]
    public async Task Every_certified_value_of_Norris_has_ten_correct_digits(string key, double certified)
    {
        using var file = new TableFile(Norris);
        var found = await Json(file, "--x", "x", "--y", "y");
        var value = double.Parse(found.GetProperty(key).GetRawText(), CultureInfo.InvariantCulture);
        Assert.True(Math.Abs(value / certified - 1) < 1e-12, $"{key}: {value:R}");
        Assert.Equal(36, found.GetProperty("n").GetInt32());
        Assert.Empty(found.GetProperty("predict").EnumerateArray());
    }

    [Theory]
    [InlineData("indicated,correction")]
    [InlineData("Indicated diameter (mm),Correction [mm]")]
    [InlineData("indicated_mm,correction_mm")]
    [InlineData("x,y")]
    public async Task The_usual_columns_need_no_naming(string first)
    {
        using var file = new TableFile(first, "3.02,-0.02", "5.01,-0.01", "8.03,-0.03");
        var found = await Json(file);
        using var named = new TableFile("p,q", "3.02,-0.02", "5.01,-0.01", "8.03,-0.03");
        var same = await Json(named, "--x", "p", "--y", "q", "--origin", "0");
        Assert.Equal(same.GetRawText(), found.GetRawText());
    }

    [Fact]
    public async Task A_certified_column_gives_the_correction()
    {
        using var file = new TableFile("disc,certified,indicated", "A,3.000,3.02", "B,5.000,5.01", "C,8.000,8.03");
        using var worked = new TableFile("indicated,correction", "3.02,-0.02", "5.01,-0.01", "8.03,-0.03");
        Near((await Json(worked)).GetProperty("y2").GetDouble(), await Json(file), "y2", 12);
    }

    [Fact]
    public async Task The_text_has_every_result_at_full_precision()
    {
        using var file = new TableFile(Thermometer);
        var outcome = await Invoked.Run([
            "calibration",
            "fit",
            "--readings",
            file.Path,
            "--x",
            "t",
            "--y",
            "b",
            "--origin",
            "20",
            "--predict",
            "30",
        ]);
        Assert.Equal(ExitCode.Done, outcome.Code);
        foreach (var part in (string[])["-0.1712037901", "0.00287759783", "0.0021826977", "-0.93042960", "2.262157"])
        {
            Assert.Contains(part, outcome.Out, StringComparison.Ordinal);
        }

        Assert.Contains("30 lies outside the readings (21.521 to 26.511)", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Readings_without_any_residual_are_not_believed()
    {
        using var file = new TableFile("indicated,correction", "3,0.05", "5,0.05", "8,0.05");
        var outcome = await Invoked.Run("calibration", "fit", "--readings", file.Path, "--json");
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("not to be believed", outcome.Error, StringComparison.Ordinal);
        using var document = JsonDocument.Parse(outcome.Out);
        Assert.Equal(JsonValueKind.Null, document.RootElement.GetProperty("r_squared").ValueKind);
    }

    [Fact]
    public async Task Rows_that_are_alike_are_taken_when_a_person_says_so()
    {
        using var file = new TableFile("indicated,correction", "3,0.05", "3,0.05", "5,0.06", "8,0.05");
        var found = await Json(file, "--accept-alike");
        Assert.Equal(4, found.GetProperty("n").GetInt32());
    }

    public static TheoryData<string, string, int, string> Slips =>
        new()
        {
            { "", "", 4, "holds nothing" },
            { "indicated,correction", "", 4, "no row" },
            { "indicated,correction|3,0.1|5,0.2", "", 4, "at least 3 discs" },
            { "indicated,correction|3.01,0.1|3.02,0.12|8.01,0.2|8.02,0.21", "", 4, "two discs only" },
            { "disc,indicated,correction|A,3.01,0.1|A,3.4,0.12|B,8.01,0.2|B,8.4,0.21", "", 4, "names 2 discs" },
            { "disc,indicated,correction|A,3.01,0.1|A,3.4,0.12|A,3.2,0.2", "", 4, "names 1 disc " },
            { "indicated,correction|3,0.1|3,0.2|3,0.3", "", 4, "one disc only, or a scale that is stuck" },
            { "indicated;correction|3,01;-0,01|5,02;-0,02|8,01;-0,01", "", 4, "decimal comma" },
            { "indicated,correction|3,01,-0,01|5,02,-0,02|8,01,-0,01", "", 4, "decimal commas" },
            { "indicated,correction|3010,-0.01|5020,-0.02|8010,-0.01", "", 4, "is it in µm" },
            { "indicated,correction|3.01,-0.01|5020,-0.02|8.01,-0.01", "", 4, "is it in µm" },
            { "indicated,correction|0.301,-0.01|0.502,-0.02|0.801,-0.01", "", 4, "cm or inches" },
            { "indicated,correction|3.01,-10|5.02,-20|8.01,-10", "", 4, "is it in µm" },
            { "indicated,correction|3.01,3.00|5.02,5.00|8.01,8.00", "", 4, "certified diameter itself" },
            { "indicated_um,correction_mm|3010,-0.01|5020,-0.02|8010,-0.01", "", 4, "is in µm" },
            { "p (µm),q (mm)|3010,-0.01|5020,-0.02|8010,-0.01", "--x|p (µm)|--y|q (mm)", 4, "is in µm" },
            { "indicated (cm),correction (cm)|0.3,0.01|0.5,0.02|0.8,0.01", "", 4, "is in cm" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1|5,0.2", "", 4, "lines 3, 5 are alike" },
            { "indicated,correction|3,0.1|5,oops|8,0.1", "", 4, "'oops' is no number" },
            { "indicated,correction|3,0.1|5,|8,0.1", "", 4, "unequal length" },
            { "p,q|3,0.1|5,0.2|8,0.1", "", 3, "'indicated'" },
            { "indicated,q|3,0.1|5,0.2|8,0.1", "", 3, "'correction'" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--y|nothing", 3, "no column 'nothing'" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--y|indicated", 2, "same column" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--common-u|-1", 2, "0 or more" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--common-dof|5", 2, "belongs to --common-u" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--origin|5,0", 2, "has a comma" },
            { "indicated,correction|3,0.1|5,0.2|8,0.1", "--predict|5|six", 2, "'six' is no number" },
        };

    [Theory]
    [MemberData(nameof(Slips))]
    public async Task Slips_are_refused_in_words_and_give_no_line(string lines, string words, int code, string says)
    {
        using var file = new TableFile(lines.Split('|', StringSplitOptions.RemoveEmptyEntries));
        var outcome = await Invoked.Run([
            "calibration",
            "fit",
            "--readings",
            file.Path,
            "--json",
            .. words.Split('|', StringSplitOptions.RemoveEmptyEntries),
        ]);
        Assert.Equal((ExitCode)code, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
        Assert.True(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length >= 2, outcome.Error);
    }

    [Fact]
    public async Task Negative_numbers_are_numbers_and_no_options()
    {
        using var file = new TableFile("p,q", "-3,1", "0,2", "4,2.5");
        var found = await Json(file, "--x", "p", "--y", "q", "--origin", "-3", "--predict", "-1", "-2.5e-1");
        Assert.Equal(
            [-1, -0.25],
            found.GetProperty("predict").EnumerateArray().Select(at => at.GetProperty("x").GetDouble())
        );
    }

    private static async Task<JsonElement> Json(TableFile file, params string[] words)
    {
        var outcome = await Invoked.Run(["calibration", "fit", "--readings", file.Path, .. words, "--json"]);
        Assert.True(outcome.Code == ExitCode.Done, outcome.Error);
        using var document = JsonDocument.Parse(outcome.Out);
        return document.RootElement.Clone();
    }

    private static void Near(double expected, JsonElement found, string key, int digits) =>
        Assert.Equal(expected, double.Parse(found.GetProperty(key).GetRawText(), CultureInfo.InvariantCulture), digits);
}
