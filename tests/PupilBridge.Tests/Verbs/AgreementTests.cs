using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>agreement</c> with published examples as plain tables. Beside the domain's tests stand more of their digits.</summary>
public sealed class AgreementTests
{
    /// <summary>Bland JM, Altman DG, Lancet 1986;i:307-310: peak flow of 17 people, in l/min, two meters, twice each.</summary>
    private static readonly string[] PeakFlow =
    [
        "subject,wright1,wright2,mini1,mini2",
        "1,494,490,512,525",
        "2,395,397,430,415",
        "3,516,512,520,508",
        "4,434,401,428,444",
        "5,476,470,500,500",
        "6,557,611,600,625",
        "7,413,415,364,460",
        "8,442,431,380,390",
        "9,650,638,658,642",
        "10,433,429,445,432",
        "11,417,420,432,420",
        "12,656,633,626,605",
        "13,267,275,260,227",
        "14,478,492,477,467",
        "15,178,165,259,268",
        "16,423,372,350,370",
        "17,427,421,451,443",
    ];

    /// <summary>Shrout PE, Fleiss JL, Psychol Bull 1979;86:420-428: four judges, six targets.</summary>
    private static readonly string[] Judges =
    [
        "target,j1,j2,j3,j4",
        "1,9,2,5,8",
        "2,6,1,3,2",
        "3,8,4,6,8",
        "4,7,1,2,6",
        "5,10,5,6,9",
        "6,6,2,4,7",
    ];

    [Fact]
    public async Task Limits_of_agreement_of_the_published_meters()
    {
        using var file = new TableFile(PeakFlow);
        var found = await Json(file, "--a", "wright1", "--b", "mini1");
        Near(-2.1176470588, found, "bias", 10);
        Near(38.7651298736, found, "s", 10);
        Near(-78.0973, found, "loa_low", 4);
        Near(73.8620, found, "loa_high", 4);
        var interval = found.GetProperty("bias_ci95").EnumerateArray().Select(end => end.GetDouble()).ToList();
        Assert.Equal(-22.0488376966, interval[0], 9);
        Assert.Equal(17.8135435790, interval[1], 9);
    }

    [Fact]
    public async Task The_factor_of_1986_gives_the_limits_of_1986()
    {
        using var file = new TableFile(PeakFlow);
        var found = await Json(file, "--a", "wright1", "--b", "mini1", "--factor", "2");
        Near(-79.6479, found, "loa_low", 4);
        Near(75.4126, found, "loa_high", 4);
    }

    [Fact]
    public async Task Repeatability_of_the_published_meter()
    {
        using var file = new TableFile(PeakFlow);
        var found = await Json(file, "--a", "wright1", "--b", "wright2", "--repeats");
        Near(15.3067, found, "within_sd", 4);
        Near(42.43, found, "repeatability", 2);
        Near(
            43.2938,
            await Json(file, "--a", "wright1", "--b", "wright2", "--repeats", "--factor", "2"),
            "repeatability",
            4
        );
    }

    /// <summary>Cohen J, Psychol Bull 1968;70:213-220: .492; the usual weights were computed by another program.</summary>
    [Theory]
    [InlineData("linear", 0.4736842)]
    [InlineData("quadratic", 0.4545455)]
    public async Task Kappa_of_the_published_grades(string weights, double weighted)
    {
        int[][] counts =
        [
            [88, 14, 18],
            [10, 40, 10],
            [2, 6, 12],
        ];
        var rows =
            from i in Enumerable.Range(0, 3)
            from j in Enumerable.Range(0, 3)
            from _ in Enumerable.Range(0, counts[i][j])
            select $"{i},{j}";
        using var file = new TableFile(["MK,AB", .. rows]);
        var found = await Json(file, "--a", "MK", "--b", "AB", "--grades", "--weights", weights);
        Near(0.4915254, found, "kappa", 7);
        Near(weighted, found, "kappa_weighted", 7);
    }

    [Theory]
    [InlineData("")]
    [InlineData("j1 j2 j3 j4")]
    public async Task Six_correlations_of_the_published_judges(string columns)
    {
        using var file = new TableFile(Judges);
        var found = await Json(file, ["--ratings", .. columns.Split(' ', StringSplitOptions.RemoveEmptyEntries)]);
        Near(0.1657418, found, "icc_1_1", 7);
        Near(0.2897638, found, "icc_2_1", 7);
        Near(0.7148407, found, "icc_3_1", 7);
        Near(0.4427971, found, "icc_1_k", 7);
        Near(0.6200505, found, "icc_2_k", 7);
        Near(0.9093155, found, "icc_3_k", 7);
        Assert.Equal(4, found.GetProperty("k").GetInt32());
    }

    [Fact]
    public async Task The_text_says_the_same_as_the_json()
    {
        using var file = new TableFile(PeakFlow);
        var limits = await Invoked.Run("agreement", "--pairs", file.Path, "--a", "wright1", "--b", "mini1");
        Assert.Equal(ExitCode.Done, limits.Code);
        Assert.Contains("-78.097", limits.Out, StringComparison.Ordinal);
        Assert.Contains("bias ± 1.96 s", limits.Out, StringComparison.Ordinal);
        using var judged = new TableFile(Judges);
        var ratings = await Invoked.Run("agreement", "--pairs", judged.Path, "--ratings");
        Assert.Contains("ICC(3,4)", ratings.Out, StringComparison.Ordinal);
        Assert.Contains("0.90931", ratings.Out, StringComparison.Ordinal);
        Assert.Contains("Raters: j1, j2, j3, j4.", ratings.Error, StringComparison.Ordinal);
        Assert.Contains("6 subjects are few", ratings.Error, StringComparison.Ordinal);
    }

    /// <summary>Raters whose means of all subjects are alike have a correlation that JSON has no number for: null.</summary>
    [Fact]
    public async Task What_json_has_no_number_for_is_null()
    {
        using var file = new TableFile("j1,j2", "1,2", "2,1", "3,0");
        var found = await Json(file, "--ratings");
        Assert.Equal(JsonValueKind.Null, found.GetProperty("icc_1_k").ValueKind);
        Assert.Equal(JsonValueKind.Number, found.GetProperty("icc_1_1").ValueKind);
    }

    public static TheoryData<string[], string[], int, string> Refused =>
        new()
        {
            { [], ["--a", "a", "--b", "b"], 4, "holds nothing" },
            { ["a,b"], ["--a", "a", "--b", "b"], 4, "no row" },
            { ["a,b", "1,2"], ["--a", "a", "--b", "b"], 4, "At least 2 subjects" },
            { ["a,b", "1,2", "3,4"], ["--a", "a", "--b", "b"], 4, "Every difference is the same" },
            { ["a,b", "1,1", "3,3"], ["--a", "a", "--b", "b", "--repeats"], 4, "equals the first" },
            { ["a,b", "1,1", "1,1"], ["--a", "a", "--b", "b", "--grades"], 4, "one and the same grade" },
            { ["a,b", "1,1", "1,1"], ["--ratings"], 4, "same rating" },
            { ["a,b", "1,x", "2,3"], ["--a", "a", "--b", "b"], 4, "'x' is no number" },
            { ["a;b", "1,5;1,7", "2,1;3,0"], ["--a", "a", "--b", "b"], 4, "decimal comma" },
            { ["a;b", "1,5;1,7", "2,1;3,0"], ["--ratings"], 4, "decimal comma" },
            { ["a,b", "1,2", "2,"], ["--a", "a", "--b", "b"], 4, "unequal length" },
            { ["a,b", "1,2", "2,3"], ["--a", "a", "--b", "c"], 3, "no column 'c'" },
            { ["a,b", "1,2", "2,3"], ["--a", "a", "--b", "a"], 2, "same column" },
            { ["a,b", "1,2", "2,3"], ["--a", "a"], 2, "--b is missing" },
            { ["a,b", "1,2", "2,3"], ["--ratings", "a"], 4, "two raters" },
            { ["a,b", "1,2", "2,3"], ["--a", "a", "--b", "b", "--repeats", "--grades"], 2, "different things" },
            { ["a,b", "1,2", "2,3"], ["--a", "a", "--b", "b", "--weights", "linear"], 2, "--grades" },
            { ["a,b", "1,2", "2,3"], ["--a", "a", "--b", "b", "--factor", "-1"], 2, "more than 0" },
        };

    [Theory]
    [MemberData(nameof(Refused))]
    public async Task What_says_nothing_is_refused_in_words(string[] lines, string[] words, int code, string says)
    {
        using var file = new TableFile(lines);
        var outcome = await Invoked.Run(["agreement", "--pairs", file.Path, .. words, "--json"]);
        Assert.Equal((ExitCode)code, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
        Assert.True(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length >= 2, outcome.Error);
    }

    private static async Task<JsonElement> Json(TableFile file, params string[] words)
    {
        var outcome = await Invoked.Run(["agreement", "--pairs", file.Path, .. words, "--json"]);
        Assert.True(outcome.Code == ExitCode.Done, outcome.Error);
        using var document = JsonDocument.Parse(outcome.Out);
        return document.RootElement.Clone();
    }

    private static void Near(double expected, JsonElement found, string key, int digits) =>
        Assert.Equal(expected, double.Parse(found.GetProperty(key).GetRawText(), CultureInfo.InvariantCulture), digits);
}
