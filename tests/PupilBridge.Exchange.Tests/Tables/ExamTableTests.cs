using System.Text.Json;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Tests.Tables;

public class ExamTableTests
{
    private static readonly TableSpan Everything = new(null, null);

    [Fact]
    public async Task A_row_says_what_the_exam_came_to()
    {
        var row = (await CsvAsync(Samples.Of("bright 4.00/3.20; dim 6.00/5.20; direct 3/2; short R; long R")))[0];
        Assert.Equal(
            ("4", "3.2", "0.8"),
            (row["right_bright_mm"], row["left_bright_mm"], row["bright_right_minus_left_mm"])
        );
        Assert.Equal(("6", "5.2", "0.8"), (row["right_dim_mm"], row["left_dim_mm"], row["dim_right_minus_left_mm"]));
        // One diameter with u = 0.1 and r²/6 for a step of 0.01: 2·√(0.1² + 0.01²/6) = 0.2002.
        Assert.Equal("0.2", row["right_bright_u_mm"]);
        Assert.Equal(("false", "false"), (row["right_bright_calibrated"], row["right_bright_doubtful"]));
        Assert.Equal(
            ("3", "2", "round", "round"),
            (row["right_direct"], row["left_direct"], row["right_shape"], row["left_shape"])
        );
        Assert.Equal(("seen", "right"), (row["swinging"], row["swinging_eye"]));
        Assert.Equal(("right-worse", "true"), (row["swinging_short"], row["swinging_short_timely"]));
        Assert.Equal("met right bright; met right dim", row["finding_anisocoria_descriptive"]);
        Assert.Equal(("draft", "", "Q-1001"), (row["status"], row["signed_by"], row["patient"]));
    }

    [Fact]
    public async Task A_merged_number_stands_beside_the_one_that_goes_on()
    {
        var exam = Samples.Of("");
        Assert.Equal("", (await CsvAsync(exam))[0]["patient_merged_into"]);
        var row = (await CsvAsync(exam with { Patient = exam.Patient! with { MergedInto = "Q-1009" } }))[0];
        Assert.Equal(("Q-1001", "Q-1009"), (row["patient"], row["patient_merged_into"]));
    }

    [Fact]
    public async Task A_negative_difference_stays_a_number_in_both_formats()
    {
        var exam = Samples.Of("bright 3.20/4.00");
        Assert.Equal("-0.8", (await CsvAsync(exam))[0]["bright_right_minus_left_mm"]);
        using var row = JsonDocument.Parse((await JsonAsync(exam))[0]);
        var cell = row.RootElement.GetProperty("bright_right_minus_left_mm");
        Assert.Equal((JsonValueKind.Number, -0.8m), (cell.ValueKind, cell.GetDecimal()));
    }

    [Fact]
    public async Task What_was_not_examined_is_empty_and_null_and_never_a_word()
    {
        var exam = Samples.Of("bright -/-; dim -/-; shape -/-; direct -/-; short -; long -");
        var row = (await CsvAsync(exam))[0];
        string[] unsaid =
        [
            "right_bright_mm",
            "left_dim_u_mm",
            "bright_right_minus_left_mm",
            "right_shape",
            "left_direct",
            "right_consensual",
            "right_near",
            "swinging_eye",
            "swinging_short",
            "swinging_long_timely",
        ];
        Assert.All(unsaid, name => Assert.Equal("", row[name]));
        Assert.Equal("not-examined", row["swinging"]);
        Assert.StartsWith("not-examined", row["finding_anisocoria_descriptive"], StringComparison.Ordinal);
        Assert.DoesNotContain("not-met", row["finding_swinging_short"], StringComparison.Ordinal);
        using var json = JsonDocument.Parse((await JsonAsync(exam))[0]);
        Assert.All(unsaid, name => Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty(name).ValueKind));
    }

    [Theory]
    [InlineData("=cmd|' /C calc'!A0")]
    [InlineData("-5")]
    [InlineData("Q,\"10\"\r\n01")]
    public async Task A_patients_number_is_a_text_whatever_it_looks_like(string number)
    {
        var exam = Samples.Of("nothing", number);
        var cell = (await CsvAsync(exam))[0]["patient"];
        Assert.Equal(number[0] is '=' or '-', cell[0] == '\'');
        Assert.Equal(number, FormulaGuard.Restored(cell));
        using var json = JsonDocument.Parse((await JsonAsync(exam))[0]);
        Assert.Equal(number, json.RootElement.GetProperty("patient").GetString());
    }

    [Fact]
    public async Task Both_formats_have_the_same_columns_in_the_same_order_and_no_name_or_remark()
    {
        var exam = Samples.Of("nothing");
        exam = exam with { Record = exam.Record with { Notes = [new("saw the harbour", "MK", "", 1)] } };
        var line = Assert.Single(await JsonAsync(exam));
        using var json = JsonDocument.Parse(line);
        var names = json.RootElement.EnumerateObject().Select(member => member.Name).ToArray();
        Assert.Equal(ClinicTables.Exams.Columns.Select(column => column.Name), names);
        Assert.Equal(names, (await CsvAsync(exam))[0].Keys);
        Assert.Equal(names.Length, names.Distinct().Count());
        Assert.DoesNotContain("Pilot", line, StringComparison.Ordinal);
        Assert.DoesNotContain("harbour", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_status_tells_draft_signed_amended_and_set_aside_apart()
    {
        var exam = Samples.Of("nothing");
        var rows = await CsvAsync(exam, exam.Signed(), exam.Signed(2), exam.Signed() with { IsSetAside = true });
        Assert.Equal(["draft", "signed", "amended", "set-aside"], rows.Select(row => row["status"]));
        Assert.Equal("2026-03-02T10:00:00.000Z", rows[1]["signed_at"]);
        Assert.Equal(64, rows[1]["record_sha256"].Length);
    }

    // Hand-counted; who is born on 29 February completes a year on 1 March where there is no such day.
    [Theory]
    [InlineData("1980-05-17", "2026-05-16T23:59:59.999Z", "45")]
    [InlineData("1980-05-17", "2026-05-17T00:00:00.000Z", "46")]
    [InlineData("2004-02-29", "2026-02-28T12:00:00.000Z", "21")]
    [InlineData("2004-02-29", "2026-03-01T12:00:00.000Z", "22")]
    [InlineData("2004-02-29", "2024-02-29T12:00:00.000Z", "20")]
    [InlineData("2026-03-02", "2026-03-02T12:00:00.000Z", "0")]
    [InlineData("2026-03-03", "2026-03-02T12:00:00.000Z", "")]
    public async Task An_age_is_in_completed_years(string born, string opened, string age) =>
        Assert.Equal(age, (await CsvAsync(Samples.Of("nothing", born: born).At(opened, 7)))[0]["age_years"]);

    internal static async Task<byte[]> BytesAsync(
        TableFormat format,
        params PupilBridge.Clinic.Outgoing.OutgoingRecord[] exams
    )
    {
        using var to = new MemoryStream();
        var count = await TableExport.WriteAsync(
            ClinicTables.Exams,
            new ListedExams(exams),
            Everything,
            format,
            to,
            default
        );
        Assert.Equal(exams.Length, count.Rows);
        return to.ToArray();
    }

    private static async Task<List<Dictionary<string, string>>> CsvAsync(
        params PupilBridge.Clinic.Outgoing.OutgoingRecord[] exams
    ) => PlainCsv.Rows(await BytesAsync(TableFormat.Csv, exams));

    private static async Task<string[]> JsonAsync(params PupilBridge.Clinic.Outgoing.OutgoingRecord[] exams) =>
        System.Text.Encoding.UTF8.GetString(await BytesAsync(TableFormat.JsonLines, exams)).TrimEnd('\n').Split('\n');
}
