using System.Text.RegularExpressions;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>What a report says, whatever it is laid out on.</summary>
public sealed partial class ReportComposerTests
{
    public static TheoryData<string> Names => [.. Samples.Names];

    [Theory]
    [InlineData(null, new[] { "AB" }, "AB; the exam opened by itself")]
    [InlineData(null, new string[0], "opened by itself")]
    [InlineData("AB", new[] { "AB" }, "AB")]
    [InlineData("AB", new[] { "AB", "CD" }, "AB; judgements also by CD")]
    public void The_examiner_is_whoever_opened_or_judged(string? opener, string[] judges, string said)
    {
        var normal = Samples.Of("normal");
        var judgement = normal.Record.Judgements.First(j => j.Counts);
        var record = normal.Record with
        {
            Opened = normal.Record.Opened with { Who = opener },
            Judgements = [.. judges.Select(who => judgement with { Who = who })],
        };
        var identity = ReportComposer.Compose(normal with { Record = record }, Samples.Setting).Sections[0];
        Assert.Contains(new ReportFact("Examiner", said), identity.Parts.OfType<ReportFacts>().SelectMany(f => f.Rows));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_finding_of_the_record_stands_in_the_report(string name)
    {
        var record = Samples.Of(name).Record;
        var said = string.Join('\n', Samples.Said(Samples.Report(name)));
        Assert.NotEmpty(record.Findings);
        foreach (var finding in record.Findings)
        {
            Assert.Contains(finding.Criterion, said, StringComparison.Ordinal);
            if (finding.Verdict is not ("met" or "cannot-tell"))
                continue;
            Assert.Contains(finding.Sentence, said, StringComparison.Ordinal);
            Assert.All(finding.Sources, source => Assert.Contains(source.TrimEnd('.'), said, StringComparison.Ordinal));
            Assert.All(finding.Cautions, caution => Assert.Contains(caution, said, StringComparison.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_number_of_a_finding_stands_in_its_item_and_every_source_once_in_the_report(string name)
    {
        var (record, report) = (Samples.Of(name).Record, Samples.Report(name));
        var parts = report.Sections.SelectMany(s => s.Parts).ToList();
        var items = parts.OfType<ReportList>().SelectMany(l => l.Items).ToList();
        var notes = parts.OfType<ReportNotes>().SelectMany(n => n.Notes).ToList();
        Assert.Equal(notes.Distinct(), notes);
        foreach (var finding in record.Findings.Where(f => f.Verdict is "met" or "cannot-tell"))
        {
            var item = Assert.Single(items, i => i.Text.Contains(finding.Sentence, StringComparison.Ordinal));
            var numbers = Numbers(item.Text + " " + item.Beside);
            Assert.All(
                new[] { finding.Value, finding.ExpandedUncertainty, finding.Limit }.OfType<string>(),
                number => Assert.Contains(Rounded(number, finding.Unit), numbers)
            );
            var pointed = SourceNumbers().Match(item.Beside).Groups[1].Value.Split(", ").Select(int.Parse);
            Assert.Empty(finding.Sources.Except(pointed.Select(n => notes[n - 1])));
            Assert.All(
                finding.FurtherLook.Split(" To ask: "),
                part =>
                    Assert.True(
                        item.Beside.Contains(part, StringComparison.Ordinal)
                            || (
                                item.Beside.Contains("as for ", StringComparison.Ordinal)
                                && items.Any(i => i.Beside.Contains(part, StringComparison.Ordinal))
                            )
                    )
            );
        }
    }

    [Theory]
    [InlineData(1, "1 judgement does not count: ")]
    [InlineData(2, "2 judgements do not count: ")]
    public void One_thing_is_named_as_one(int count, string words)
    {
        var outgoing = Samples.Of("normal");
        var refused = outgoing.Record.Judgements[0] with { Counts = false, WhyNot = "exam-signed" };
        var record = outgoing.Record with { RefusedJudgements = [.. Enumerable.Repeat(refused, count)] };
        var said = Samples.Said(ReportComposer.Compose(outgoing with { Record = record }, Samples.Setting));
        Assert.Contains(said, text => text.StartsWith(words, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_size_that_was_taken_stands_in_the_report_with_its_uncertainty_if_it_counts(string name)
    {
        var said = string.Join('\n', Samples.Said(Samples.Report(name)));
        foreach (var size in Samples.Of(name).Record.Sizes)
        {
            var (value, u) = (size.DiameterMicrometres / 1000m, size.ExpandedUncertaintyMicrometres / 1000m);
            var expected = size.Counts
                ? FormattableString.Invariant($"{value:0.00} ± {u:0.00} mm")
                : $"{value:0.00} mm (";
            Assert.Contains(expected, said, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void No_word_is_missing_and_nothing_is_called_normal(string name)
    {
        foreach (var text in Samples.Said(Samples.Report(name)))
        {
            Assert.DoesNotMatch(MissingWord(), text);
            Assert.DoesNotMatch(Normal(), text);
        }
    }

    [Theory]
    [InlineData("normal", "")]
    [InlineData("abnormal", "")]
    [InlineData("uncalibrated", "UNCALIBRATED")]
    [InlineData("incomplete", "NOT COMPLETE, GAP")]
    [InlineData("amended", "AMENDED, NOT COMPLETE")]
    [InlineData("draft", "DRAFT, NOT COMPLETE")]
    public void What_must_be_seen_first_stands_first(string name, string marks) =>
        Assert.Equal(marks, string.Join(", ", Samples.Report(name).Marks.Select(m => m.Word)));

    [Fact]
    public void A_version_that_was_amended_later_and_an_exam_set_aside_say_so()
    {
        var outgoing = Samples.Of("normal");
        var old = outgoing with { Signature = outgoing.Signature! with { IsLatest = false }, IsSetAside = true };
        Assert.Equal(
            ["SET ASIDE", "SUPERSEDED"],
            ReportComposer.Compose(old, Samples.Setting).Marks.Select(m => m.Word)
        );
    }

    [Fact]
    public void What_was_not_examined_is_called_so_in_its_own_place()
    {
        var table = Samples.Report("incomplete").Sections.SelectMany(s => s.Parts).OfType<ReportTable>().First();
        var rows = table.Rows.ToDictionary(row => row[0], row => (row[1], row[2]));
        Assert.Equal(("not examined", "not examined"), rows["Size, dim"]);
        Assert.Equal("not examined", rows["Size, bright"].Item2);
        Assert.StartsWith("3.27 ± ", rows["Size, bright"].Item1, StringComparison.Ordinal);
        Assert.Equal(("not examined", "not examined"), rows["Shape"]);
        Assert.Equal(("not examined", "not examined"), rows["Direct response"]);
        Assert.Equal(("not examined", "not examined"), rows["Near response"]);
    }

    [Fact]
    public void The_digest_is_that_of_the_record_and_the_head_is_written_as_journal_verify_takes_it()
    {
        var outgoing = Samples.Of("normal");
        var said = Samples.Said(Samples.Report("normal")).ToList();
        var digest = SignedRecordText.Digest(SignedRecordText.Write(outgoing.Record));
        Assert.Contains(digest, said);
        Assert.Contains($"{outgoing.Head!.Sequence}:{outgoing.Head.Hash}", said);
        Assert.Contains(said, text => text.Contains("pupilbridge journal verify --head", StringComparison.Ordinal));
    }

    [Fact]
    public void A_patient_of_another_number_lends_the_report_no_name()
    {
        var outgoing = Samples.Of("normal");
        var other = outgoing with { Patient = outgoing.Patient! with { Patient = "Q-1004" } };
        Assert.DoesNotContain(
            Samples.Said(ReportComposer.Compose(other, Samples.Setting)),
            text => text.Contains("Crane Driver", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_record_of_the_first_format_says_what_it_does_not_hold()
    {
        var old = Samples.Of("normal") with
        {
            Record = Samples.Of("normal").Record with { FormatVersion = 1, Findings = [], Trains = [] },
        };
        var said = string.Join('\n', Samples.Said(ReportComposer.Compose(old, Samples.Setting)));
        Assert.Contains("signed before criteria were part of it", said, StringComparison.Ordinal);
        Assert.Contains("signed before single stimuli were part of it", said, StringComparison.Ordinal);
    }

    private static List<decimal> Numbers(string text) =>
        [
            .. Number()
                .Matches(text)
                .Select(m => decimal.Parse(m.Value, System.Globalization.CultureInfo.InvariantCulture)),
        ];

    private static decimal Rounded(string number, string? unit)
    {
        var value = decimal.Parse(number, System.Globalization.CultureInfo.InvariantCulture);
        return unit == "mm" ? Math.Round(value, 2, MidpointRounding.AwayFromZero) : value;
    }

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"\[(\d+(, \d+)*)\]")]
    private static partial Regex SourceNumbers();

    [GeneratedRegex(@"\[[A-Z][A-Za-z]*(\.[A-Za-z-]+)*\]")]
    private static partial Regex MissingWord();

    [GeneratedRegex(@"\b(normal|healthy|negative|reassuring|wnl|nad|intact)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Normal();
}
