using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exams.Tests.Records;

public class SignedRecordTests
{
    private const string Begin = "start 1.0; meet A; lux 300; open Q-1003; +1000; mode measure; +500;";

    public static TheoryData<string> Names =>
        [
            .. Directory
                .GetFiles(Folder("Scripts"), "*.exam")
                .Select(path => Path.GetFileNameWithoutExtension(path)!)
                .Order(),
        ];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_record_of_a_whole_exam_is_the_text_that_stands_beside_it(string name)
    {
        var script = File.ReadAllText(Path.Combine(Folder("Scripts"), name + ".exam")).Split("\n=====\n")[0];
        var texts = Script.Run(script).Exams.Values.Select(e => SignedRecordText.Write(SignedRecords.Of(e, "3.0")));
        var actual = string.Join('\n', texts);
        var path = Path.Combine(Folder("Records"), name + ".json");
        if (Environment.GetEnvironmentVariable("PUPILBRIDGE_REWRITE_GOLDEN") == "1")
            File.WriteAllText(path, actual + "\n");
        Assert.Equal(File.ReadAllText(path).TrimEnd('\n'), actual);
    }

    [Fact]
    public void The_record_holds_what_was_measured_and_judged_with_its_place_in_the_journal()
    {
        var folded = Script.Run(
            Begin + "p: pair R 3300; pair L 3250; pair R 3350; shape R round; j: shape L notround; n: note hello; ready"
        );
        var record = SignedRecords.Of(folded.Exam, "3.0");
        Assert.Equal((1, "Q-1003", "3.0"), (record.Version, record.Patient, record.ProgramVersion));
        Assert.Equal([false, true, true], record.Sizes.Select(s => s.Counts));
        var size = record.Sizes[2];
        Assert.Equal(
            ("right", "bright", 3350, 200),
            (size.Eye, size.Light, size.DiameterMicrometres, size.ExpandedUncertaintyMicrometres)
        );
        Assert.Equal((5000, 8350), (size.Nasal.PositionMicrometres, size.Temporal.PositionMicrometres));
        foreach (var edge in new[] { size.Nasal, size.Temporal })
            Assert.IsType<InstrumentReported>(folded.Journal[(int)edge.Sequence - 1].Entry);
        var judgement = record.Judgements[1];
        Assert.Equal(
            ("shape", "left", "not-round", "AB", true),
            (judgement.Judged, judgement.Eye, judgement.Answer, judgement.Who, judgement.Counts)
        );
        Assert.IsType<JudgementEntered>(folded.Journal[(int)judgement.Sequence - 1].Entry);
        Assert.Equal("hello", Assert.Single(record.Notes).Text);
        Assert.Equal(GradeLegend.Default.Grades, record.Legend.Grades);
        Assert.Equal(folded.Exam.Entries[^1].Last.Value, record.Journal[^1].Last);
    }

    [Fact]
    public void What_was_not_examined_is_never_done_in_the_record()
    {
        var record = SignedRecords.Of(Script.Run(Begin + "pair R 3300; accept SizesDim; ready").Exam, "3.0");
        Assert.Equal(
            [
                ("sizes-bright", "skipped"),
                ("sizes-dim", "accepted-not-examined"),
                ("shape", "skipped"),
                ("direct", "skipped"),
                ("swing-short", "skipped"),
                ("swing-long", "skipped"),
            ],
            record.Steps.Select(s => (s.Step, s.State))
        );
        Assert.Equal("not-examined", record.Swinging.State);
        Assert.Contains(
            "Shape: OD (right) not examined, OS (left) not examined",
            record.Chart.Line,
            StringComparison.Ordinal
        );
        Assert.Equal(ChartText.Caution, record.Chart.Block[^1]);
    }

    [Fact]
    public void Judgements_that_were_replaced_taken_back_or_refused_stay_and_say_so()
    {
        var exam = Script
            .Run(
                Begin
                    + "direct R 3; pair R 3300; pair L 3250; shape R round; a: shape R notround; shape R round; undo a; ready"
            )
            .Exam;
        var record = SignedRecords.Of(exam, "3.0");
        Assert.Equal(["replaced", "taken-back", null], record.Judgements.Select(j => j.WhyNot));
        Assert.Equal([false, false, true], record.Judgements.Select(j => j.Counts));
        Assert.Equal("no-complete-stimulus", Assert.Single(record.RefusedJudgements).WhyNot);
    }

    [Fact]
    public void The_same_thing_going_wrong_often_takes_one_place_with_its_count()
    {
        var flapping = string.Concat(Enumerable.Repeat("line lost; +100; line connected; +100;", 200));
        var record = SignedRecords.Of(Script.Run(Begin + "line connected;" + flapping + "gap 3; ready").Exam, "3.0");
        Assert.Equal(["line-lost", "line-back", "events-lost"], record.Incidents.Select(i => i.Kind));
        Assert.Equal([200, 200, 1], record.Incidents.Select(i => i.Count));
        Assert.True(record.Incidents[0].Last > record.Incidents[0].First);
    }

    [Fact]
    public void An_amended_record_names_the_digest_of_the_one_before_and_why()
    {
        var exam = Script.Run(Begin + "pair R 3300; ready; sign 1 abc; amend wrong eye").Exam;
        var record = SignedRecords.Of(exam, "3.0");
        Assert.Equal((2, "wrong eye"), (record.Version, record.AmendmentReason));
        // SHA-256 of "abc": FIPS 180-4, example 1 of NIST's published test vectors.
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", record.PreviousDigest);
    }

    [Fact]
    public void The_text_is_the_same_in_any_locale()
    {
        var exam = Script.Run(Begin + "pair R 3300; ready").Exam;
        var here = SignedRecordText.Write(SignedRecords.Of(exam, "3.0"));
        var before = CultureInfo.CurrentCulture;
        try
        {
            var other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            other.NumberFormat.NumberDecimalSeparator = "٫";
            other.NumberFormat.NegativeSign = "−";
            other.DateTimeFormat.DateSeparator = ".";
            other.DateTimeFormat.TimeSeparator = "h";
            CultureInfo.CurrentCulture = other;
            Assert.Equal("3٫2", 3.2.ToString(other));
            Assert.Equal(here, SignedRecordText.Write(SignedRecords.Of(exam, "3.0")));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_whole_exams_record_fits_many_times_into_one_entry_of_the_journal()
    {
        foreach (var path in Directory.GetFiles(Folder("Records"), "*.json"))
        {
            foreach (var text in File.ReadAllLines(path))
            {
                // What was measured and judged fits three times, as before there were findings; with them it fits twice.
                var bare = SignedRecordText.Write(SignedRecordText.Read(text) with { Findings = [] });
                Assert.InRange(Encoding.UTF8.GetByteCount(bare), 500, ExamSigned.MaxRecordBytes / 3);
                Assert.InRange(Encoding.UTF8.GetByteCount(text), 500, ExamSigned.MaxRecordBytes / 2);
            }
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("[1]")]
    [InlineData("{\"format\":\"other\",\"formatVersion\":1}")]
    [InlineData("{\"format\":\"pupilbridge-record\",\"formatVersion\":0}")]
    [InlineData("{\"format\":\"pupilbridge-record\",\"formatVersion\":\"1\"}")]
    [InlineData("{\"format\":\"pupilbridge-record\",\"formatVersion\":1}")]
    public void What_is_no_record_is_refused_with_what_to_do(string text) =>
        Assert.Contains(
            "journal verify",
            Assert.Throws<FormatException>(() => SignedRecordText.Read(text)).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void A_newer_format_is_refused_with_what_to_do()
    {
        const string text = "{\"format\":\"pupilbridge-record\",\"formatVersion\":4}";
        Assert.Contains(
            "Install the version",
            Assert.Throws<FormatException>(() => SignedRecordText.Read(text)).Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_record_cut_off_anywhere_is_refused()
    {
        var text = SignedRecordText.Write(SignedRecords.Of(Script.Run(Begin + "pair R 3300; ready").Exam, "3.0"));
        for (var length = 0; length < text.Length; length++)
            Assert.Throws<FormatException>(() => SignedRecordText.Read(text[..length]));
        Assert.Equal(text, SignedRecordText.Write(SignedRecordText.Read(text)));
    }

    [Fact]
    public void What_people_wrote_stands_in_the_text_as_they_wrote_it_and_goes_through_the_journal_unchanged()
    {
        var exam = Script.Run(Begin + "pair R 3300; note Größe <\"3\"> → ok 👁; ready").Exam;
        var text = SignedRecordText.Write(SignedRecords.Of(exam, "3.0"));
        Assert.Contains("Größe <\\\"3\\\"> → ok", text, StringComparison.Ordinal);
        Assert.Equal(exam.Notes[0].Text, SignedRecordText.Read(text).Notes[0].Text);
        var signed = Script.Journal(Begin + "pair R 3300; ready; sign 1")[^1];
        var entry = (ExamSigned)signed.Entry with { Record = text };
        var read = (ExamSigned)Exams.Entries.Codec.EntryCodec.Decode(Exams.Entries.Codec.EntryCodec.Encode(entry));
        Assert.Equal(SignedRecordText.Digest(text), SignedRecordText.Digest(read.Record!));
    }

    private static string Folder(string of, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "..", of, "Golden");
}
