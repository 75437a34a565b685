using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using CsvHelper;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.History;
using SkiaSharp;

namespace PupilBridge.Exchange.Tests.History;

public sealed class HistoryOutputTests
{
    private static readonly PatientHistory Two = Visits.History(Visits.Morning, Visits.Morning.AddDays(-180)) with
    {
        Visits =
        [
            Visits.Visit(Visits.Morning) with
            {
                Grades = ["=HYPERLINK(\"x\")", "direct OD 3, OS 2"],
                Differences = [new("bright", -0.35, 0.28)],
                Changes = [new("anisocoria-descriptive", "OS", "bright", null, "not-met", "met", "A sentence.")],
            },
            Visits.Visit(Visits.Morning.AddDays(-180)),
        ],
    };

    [Fact]
    public void The_CSV_reads_back_column_by_column_and_no_field_is_a_formula()
    {
        var text = HistoryCsv.Write(Two);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        using var reader = CsvReader.Create(Encoding.UTF8.GetBytes(text), new CsvReaderOptions { HasHeader = false });
        List<string[]> rows = [];
        while (reader.Read())
            rows.Add(reader.Current.ToArray());
        Assert.Equal(3, rows.Count);
        string Field(int row, string column) => rows[row][Array.IndexOf(rows[0], column)];
        Assert.Equal("Q-1001", Field(1, "patient"));
        Assert.Equal(("3.50", "0.20"), (Field(1, "OD_bright_mm"), Field(1, "OD_bright_u_mm")));
        Assert.Equal(("-0.35", "0.28"), (Field(1, "OD_minus_OS_bright_mm"), Field(1, "OD_minus_OS_bright_u_mm")));
        Assert.Equal(("7", ""), (Field(1, "exam"), Field(1, "OS_bright_mm")));
        Assert.Equal("no", Field(1, "calibrated"));
        Assert.Equal("anisocoria-descriptive (OS bright): not met → met", Field(1, "criteria_changed"));
        Assert.DoesNotMatch("^[=@+\\t\\r]", Field(1, "grades"));
        Assert.Equal("2025-09-03T08:15:00Z", Field(2, "opened_utc"));
    }

    [Fact]
    public void The_JSON_holds_the_same_visits()
    {
        using var json = JsonDocument.Parse(HistoryJson.Write(Two));
        var visits = json.RootElement.GetProperty("visits");
        Assert.Equal(2, visits.GetArrayLength());
        Assert.Equal(3.5, visits[0].GetProperty("sizes")[0].GetProperty("millimetres").GetDouble());
        Assert.Equal("met", visits[0].GetProperty("changes")[0].GetProperty("to").GetString());
    }

    [Fact]
    public void The_vector_plot_is_well_formed_and_names_eyes_and_lights()
    {
        var svg = XDocument.Parse(HistoryPlot.Svg(Two, isDark: false, TimeProvider.System));
        var words = svg.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        Assert.Contains("OD bright", words);
        Assert.Contains("OS dim", words);
    }

    [Fact]
    public void The_picture_shows_lines_bars_and_words_in_the_colours_of_both_eyes()
    {
        using var picture = SKBitmap.Decode(HistoryPlot.Png(Two, TimeProvider.System));
        Assert.True(picture.Width > 2000, $"{picture.Width} pixels are too few for paper");
        var colours = picture.Pixels.CountBy(p => p).ToDictionary();
        Assert.True(colours[SKColors.White] > picture.Pixels.Length / 2);
        Assert.True(colours.GetValueOrDefault(SKColor.Parse("#9a4a00")) > 500, "nothing of the right eye");
        Assert.True(colours.GetValueOrDefault(SKColor.Parse("#1f4f86")) > 500, "nothing of the left eye");
        Assert.True(colours.GetValueOrDefault(SKColor.Parse("#3a2f28")) > 2000, "no axes and words");
    }

    [Fact]
    public void A_patient_without_a_size_still_gets_a_plot() =>
        Assert.NotEmpty(HistoryPlot.Png(Visits.History(), TimeProvider.System));
}
