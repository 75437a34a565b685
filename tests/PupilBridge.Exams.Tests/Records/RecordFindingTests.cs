using System.Runtime.CompilerServices;
using System.Text;
using PupilBridge.Constructed;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exams.Tests.Records;

public class RecordFindingTests
{
    public static TheoryData<string> OlderRecords => Texts("Format1");

    public static TheoryData<string> SecondRecords => Texts("Format2");

    [Theory]
    [MemberData(nameof(OlderRecords))]
    public void A_record_of_format_1_reads_without_findings_and_keeps_its_bytes(string text)
    {
        var record = SignedRecordText.Read(text);
        Assert.Equal((1, 0), (record.FormatVersion, record.Findings.Count));
        Assert.Equal(text, SignedRecordText.Write(record));
    }

    [Theory]
    [MemberData(nameof(SecondRecords))]
    public void A_record_of_format_2_reads_without_calibration_and_keeps_its_bytes(string text)
    {
        var record = SignedRecordText.Read(text);
        Assert.Equal((2, null, null), (record.FormatVersion, record.Calibration, record.Lamps));
        Assert.NotEmpty(record.Findings);
        Assert.Equal(text, SignedRecordText.Write(record));
    }

    [Theory]
    [InlineData("findings")]
    [InlineData("calibration")]
    public void A_record_of_format_3_without_what_its_format_has_is_refused(string member)
    {
        var text = SignedRecordText.Write(SignedRecords.Of(ConstructedExam.Of("nothing"), "3.0"));
        Assert.Equal(3, SignedRecordText.Read(text).FormatVersion);
        var bare = System.Text.Json.Nodes.JsonNode.Parse(text)!.AsObject();
        Assert.True(bare.Remove(member));
        Assert.Throws<FormatException>(() => SignedRecordText.Read(bare.ToJsonString()));
    }

    [Fact]
    public void A_difference_beyond_its_limit_stands_in_the_record_with_all_that_belongs_to_it()
    {
        var finding = Found("bright 4.00/3.20; dim 6.00/5.20", "anisocoria-descriptive")[0];
        Assert.Equal(("met", null, "right", "bright"), (finding.Verdict, finding.Reason, finding.Eye, finding.Light));
        // 0.8 mm; two diameters with u = 0.1 and r²/6: 2·√(2·(0.1² + 0.01²/6)) = 0.283.
        Assert.Equal(
            ("0.8", "0.283", "0.4", "mm"),
            (finding.Value, finding.ExpandedUncertainty, finding.Limit, finding.Unit)
        );
        Assert.Equal("Follow local policy; a licensed practitioner decides.", finding.Cautions[^1]);
        Assert.Contains("Lam", finding.Sources[0], StringComparison.Ordinal);
        Assert.Contains("To ask: Since when? Older photographs?", finding.FurtherLook, StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_told_or_was_not_examined_says_why_in_a_word()
    {
        var open = Found("status drops/none", "anisocoria-descriptive")[0];
        Assert.Equal(("cannot-tell", "eye-status"), (open.Verdict, open.Reason));
        var missing = Found("long -", "swinging-long")[0];
        Assert.Equal(("not-examined", "input-missing", null), (missing.Verdict, missing.Reason, missing.Value));
        Assert.Empty(missing.Sources);
        Assert.Equal("", missing.FurtherLook);
    }

    [Fact]
    public void A_further_look_names_the_eye_it_means()
    {
        var defect = Found("short R; long R", "rapd")[0];
        Assert.Contains("before OS (left)", defect.FurtherLook, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_number_has_a_unit_in_every_constructed_exam_and_no_text_has_a_hole()
    {
        foreach (var row in CriteriaDocument.Rows)
        {
            foreach (var finding in SignedRecords.Of(ConstructedExam.Of(row.Done), "3.0").Findings)
            {
                var hasNumber = finding.Value is not null || finding.Limit is not null;
                Assert.Equal(hasNumber, finding.Unit is not null);
                Assert.DoesNotContain(
                    '{',
                    string.Join(' ', [finding.Sentence, finding.FurtherLook, .. finding.Cautions])
                );
            }
        }
    }

    [Fact]
    public void The_record_of_every_constructed_exam_fits_twice_into_one_entry_of_the_journal() =>
        Assert.All(
            CriteriaDocument.Rows,
            row =>
                Assert.InRange(
                    Encoding.UTF8.GetByteCount(
                        SignedRecordText.Write(SignedRecords.Of(ConstructedExam.Of(row.Done), "3.0"))
                    ),
                    10_000,
                    ExamSigned.MaxRecordBytes / 2
                )
        );

    [Fact]
    public void What_is_known_beside_the_exam_reaches_the_record()
    {
        var input = ConstructedExam.Of("bright 4.00/3.15; earlier bright 3.20/3.15");
        Assert.Equal("met", Of(input, "size-changed")[0].Verdict);
        Assert.Equal("not-examined", Of(input with { Earlier = [] }, "size-changed")[0].Verdict);
    }

    private static RecordFinding[] Found(string done, string criterion) => Of(ConstructedExam.Of(done), criterion);

    private static RecordFinding[] Of(CriteriaInput input, string criterion) =>
        [.. SignedRecords.Of(input, "3.0").Findings.Where(f => f.Criterion == criterion)];

    private static TheoryData<string> Texts(string format) =>
        [.. Directory.GetFiles(Folder(format), "*.json").SelectMany(File.ReadAllLines)];

    private static string Folder(string format, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "Golden", format);
}
