using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Report;
using UglyToad.PdfPig.Tokens;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>The PDF as a reader finds it. Its looks were judged by eye; here stands what a machine can hold.</summary>
public sealed class PdfReportTests
{
    public static TheoryData<string, ReportPaper> Each
    {
        get
        {
            TheoryData<string, ReportPaper> data = [];
            foreach (var name in Samples.Names)
            {
                data.Add(name, ReportPaper.A4);
                data.Add(name, ReportPaper.A5);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void All_that_the_report_says_is_text_in_the_file(string name, ReportPaper paper)
    {
        var report = Samples.Report(name);
        using var pdf = new PdfReading(PdfReport.Write(report, paper));
        Assert.All(
            Samples.Said(report),
            text => Assert.Contains(PdfReading.Squeeze(text), pdf.Letters, StringComparison.Ordinal)
        );
        Assert.Equal($"{report.Title}: {report.Running}", pdf.Title);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void Every_font_is_embedded_and_is_ours(string name, ReportPaper paper)
    {
        using var pdf = new PdfReading(PdfReport.Write(Samples.Report(name), paper));
        var fonts = pdf.Pages.SelectMany(page => page.Letters).Select(letter => letter.FontName).Distinct().ToList();
        Assert.NotEmpty(fonts);
        // Six letters and a plus sign begin the name of a font of which a part is embedded (ISO 32000-1, 9.6.4).
        Assert.All(fonts, font => Assert.Matches("^[A-Z]{6}\\+DejaVu", font));
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void The_file_is_tagged_for_screen_readers(string name, ReportPaper paper)
    {
        var report = Samples.Report(name);
        using var pdf = new PdfReading(PdfReport.Write(report, paper));
        Assert.Equal("en", ((StringToken)pdf.Catalog.Data["Lang"]).Data);
        var tags = pdf.Tags();
        Assert.Equal(1, tags.Count(t => t.Tag == "H1"));
        Assert.Equal(report.Sections.Count, tags.Count(t => t.Tag == "H2"));
        var tables = report.Sections.SelectMany(s => s.Parts).OfType<ReportTable>().ToList();
        Assert.True(tags.Count(t => t.Tag == "Table") >= tables.Count);
        Assert.True(tags.Count(t => t.Tag == "TD") >= tables.Sum(t => t.Rows.Sum(r => r.Count - 1)));
        var figure = report.Sections.SelectMany(s => s.Parts).OfType<ReportFigure>().Single();
        Assert.Equal(figure.Alternative, Assert.Single(tags, t => t.Tag == "Figure").Alternative);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void Nothing_stands_outside_the_margins_or_on_something_else(string name, ReportPaper paper)
    {
        using var pdf = new PdfReading(PdfReport.Write(Samples.Report(name), paper));
        foreach (var page in pdf.Pages)
            PdfLayout.Check(page);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void An_exam_takes_one_sheet(string name, ReportPaper paper)
    {
        var file = PdfReport.Write(Samples.Report(name), paper);
        Samples.Keep($"{name}-{paper}.pdf", file);
        using var pdf = new PdfReading(file);
        Assert.Single(pdf.Pages);
        Assert.Contains("Page1of1", pdf.Letters, StringComparison.Ordinal);
    }

    /// <summary>
    /// The limits are those of Regulation (EU) No 1169/2011 for print that everybody must be able to read: a small x of 1.2 mm, and of
    /// 0.9 mm where there is little room, Article 13 (2) and (3).
    /// </summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void No_letter_is_too_small_to_be_read(string name, ReportPaper paper)
    {
        using var pdf = new PdfReading(PdfReport.Write(Samples.Report(name), paper));
        var letters = pdf.Pages.SelectMany(page => page.Letters).Where(l => l.Value == "x").ToList();
        Assert.NotEmpty(letters);
        var heights = letters.Select(l => l.BoundingBox.Height * 25.4 / 72).ToList();
        var (least, plain) = paper == ReportPaper.A4 ? (1.0, 1.2) : (0.9, 0.9);
        Assert.True(heights.Min() >= least, $"the smallest x is {heights.Min():0.000} mm high");
        var smallest = PdfSheet.Of(paper).Steps[^1];
        Assert.True(smallest.Size * PdfStep.XHeight * 25.4 / 72 >= plain);
        Assert.True(smallest.Small * PdfStep.XHeight * 25.4 / 72 >= least);
    }

    [Theory]
    [InlineData(ReportPaper.A4)]
    [InlineData(ReportPaper.A5)]
    public void The_same_report_is_always_the_same_file(ReportPaper paper)
    {
        var first = PdfReport.Write(Samples.Report("abnormal"), paper);
        Assert.Equal(first, PdfReport.Write(Samples.Report("abnormal"), paper));
        Assert.NotEqual(first, PdfReport.Write(Samples.Report("normal"), paper));
    }

    [Theory]
    [InlineData(ReportPaper.A4)]
    [InlineData(ReportPaper.A5)]
    public void One_remark_after_the_other_makes_letters_smaller_and_at_last_a_second_sheet(ReportPaper paper)
    {
        var outgoing = Samples.Of("normal");
        var sheet = PdfSheet.Of(paper);
        using var widths = new WordWidths();
        List<int> steps = [];
        var report = Samples.Report("normal");
        for (var n = 0; PdfFit.Step(report, sheet, widths, 1) is { } step; n += 8)
        {
            steps.Add(step);
            Exams.Records.RecordNote[] notes =
            [
                .. Enumerable
                    .Range(1, n)
                    .Select(i => new Exams.Records.RecordNote(Remark(i), "MK", outgoing.Record.Opened.At, i)),
            ];
            var record = outgoing.Record with { Notes = [.. notes] };
            report = ReportComposer.Compose(outgoing with { Record = record }, Samples.Setting);
        }

        Assert.Equal(steps.Order(), steps);
        Assert.True(steps.Distinct().Count() > 4, string.Join(", ", steps));
        using var pdf = new PdfReading(PdfReport.Write(report, paper));
        Assert.Equal(2, pdf.Pages.Count);
        Assert.Contains("Page1of2", pdf.Letters, StringComparison.Ordinal);
        Assert.Contains("Page2of2", pdf.Letters, StringComparison.Ordinal);
        Assert.All(
            Samples.Said(report),
            text => Assert.Contains(PdfReading.Squeeze(text), pdf.Letters, StringComparison.Ordinal)
        );

        static string Remark(int number) =>
            $"remark {number}: the patient looked away for a moment and was asked to look far again";
    }

    [Theory]
    [InlineData(ReportPaper.A4)]
    [InlineData(ReportPaper.A5)]
    public void A_long_exam_flows_over_numbered_sheets_and_loses_nothing(ReportPaper paper)
    {
        var outgoing = Samples.Of("normal");
        var note = outgoing.Record.Opened;
        string[] words = [.. Enumerable.Range(1, 2_000).Select(n => $"word{n:0000}")];
        var record = outgoing.Record with
        {
            Notes =
            [
                .. Enumerable
                    .Range(1, 90)
                    .Select(n => new Exams.Records.RecordNote($"remark number {n} of a long day", "MK", note.At, n)),
                new(string.Join(' ', words), "MK", note.At, 99),
            ],
        };
        var report = ReportComposer.Compose(outgoing with { Record = record }, Samples.Setting);
        using var pdf = new PdfReading(PdfReport.Write(report, paper));
        Assert.True(pdf.Pages.Count > 2);
        Assert.All(
            Samples.Said(report).Where(text => !text.Contains("word0001", StringComparison.Ordinal)),
            text => Assert.Contains(PdfReading.Squeeze(text), pdf.Letters, StringComparison.Ordinal)
        );
        Assert.All(words, word => Assert.Contains(word, pdf.Letters, StringComparison.Ordinal));
        for (var n = 0; n < pdf.Pages.Count; n++)
        {
            var letters = PdfReading.Squeeze(string.Concat(pdf.Pages[n].Letters.Select(l => l.Value)));
            Assert.Contains($"Page{n + 1}of{pdf.Pages.Count}", letters, StringComparison.Ordinal);
            Assert.Contains(PdfReading.Squeeze(report.Running), letters, StringComparison.Ordinal);
            PdfLayout.Check(pdf.Pages[n]);
        }
    }

    [Fact]
    public void A_character_that_the_letters_do_not_have_is_written_by_its_number()
    {
        var outgoing = Samples.Of("normal");
        var named = outgoing with { Patient = outgoing.Patient! with { Name = "Łucja Ж Ω \u6d77 \U0001F6A2\u0007" } };
        using var pdf = new PdfReading(PdfReport.Write(ReportComposer.Compose(named, Samples.Setting), ReportPaper.A4));
        Assert.Contains("ŁucjaЖΩ[U+6D77][U+1F6A2]", pdf.Letters, StringComparison.Ordinal);
    }
}
