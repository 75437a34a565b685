using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Tests.Tables;

public class ReadingTableTests
{
    [Fact]
    public async Task Every_capture_is_a_row_with_its_raw_positions_and_superseded_ones_say_so()
    {
        var exam = Samples.Of("bright 4.00/3.20; dim 6.00/5.20");
        Assert.Equal(4, exam.Record.Sizes.Count);
        var first = exam.Record.Sizes[0];
        exam = exam with
        {
            Record = exam.Record with
            {
                Sizes = [first with { Counts = false, DiameterMicrometres = 3_900 }, .. exam.Record.Sizes],
            },
        };
        var rows = await RowsAsync(exam);
        Assert.Equal(["false", "true", "true", "true", "true"], rows.Select(row => row["counts"]));
        Assert.Equal(["3.9", "4", "3.2", "6", "5.2"], rows.Select(row => row["diameter_mm"]));
        Assert.Equal(["right", "right", "left", "right", "left"], rows.Select(row => row["eye"]));
        Assert.Equal(["bright", "bright", "bright", "dim", "dim"], rows.Select(row => row["light"]));
        foreach (var row in rows.Skip(1))
        {
            var between = long.Parse(row["temporal_um"]) - long.Parse(row["nasal_um"]);
            Assert.Equal(long.Parse(row["raw_um"]), Math.Abs(between));
            Assert.True(long.Parse(row["completed_by"]) > 0);
        }
    }

    [Fact]
    public async Task An_exam_without_captures_has_no_row() =>
        Assert.Empty(await RowsAsync(Samples.Of("bright -/-; dim -/-")));

    private static async Task<List<Dictionary<string, string>>> RowsAsync(
        PupilBridge.Clinic.Outgoing.OutgoingRecord exam
    )
    {
        using var to = new MemoryStream();
        await TableExport.WriteAsync(
            ClinicTables.Readings,
            new ListedExams([exam]),
            new TableSpan(null, null),
            TableFormat.Csv,
            to,
            default
        );
        return PlainCsv.Rows(to.ToArray());
    }
}
