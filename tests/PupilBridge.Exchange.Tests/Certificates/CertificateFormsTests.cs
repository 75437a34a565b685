using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using AngleSharp.Html.Parser;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Tests.Report;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>What holds of a certificate in each of its forms. Their looks were judged by eye.</summary>
public sealed partial class CertificateFormsTests
{
    public static TheoryData<string, bool> Each
    {
        get
        {
            TheoryData<string, bool> data = [];
            foreach (var name in CertificateSamples.Names)
            {
                data.Add(name, false);
                data.Add(name, true);
            }

            return data;
        }
    }

    public static TheoryData<string> Names => [.. CertificateSamples.Names];

    [Theory]
    [MemberData(nameof(Each))]
    public void All_three_say_everything(string name, bool isDraft)
    {
        var json = CertificateSamples.Json(name);
        CertificateReading.Keep(name, json);
        var document = CertificateDocuments.Compose(json, isDraft);
        using var file = new PdfReading(CertificateReading.Pdf(json, isDraft));
        var pdf = file.Letters;
        using var page = new HtmlParser(new() { IsStrictMode = true }).ParseDocument(
            CertificateDocuments.Html(json, isDraft)
        );
        var html = PdfReading.Squeeze(page.Body!.TextContent);
        var text = PdfReading.Squeeze(CertificateDocuments.Text(json, isDraft));
        // The plain text names a column only beside a cell that says something.
        var heads = document
            .Sections.SelectMany(s => s.Parts)
            .OfType<ReportTable>()
            .SelectMany(t => t.Heads)
            .ToHashSet();
        foreach (var said in Samples.Said(document))
        {
            var letters = PdfReading.Squeeze(said);
            Assert.Contains(letters, pdf, StringComparison.Ordinal);
            Assert.Contains(letters, html, StringComparison.Ordinal);
            if (!heads.Contains(said))
                Assert.Contains(letters, text, StringComparison.Ordinal);
        }

        Assert.All(
            document.Sections.SelectMany(s => s.Parts).OfType<ReportFigure>(),
            figure => Assert.Contains(PdfReading.Squeeze(figure.Alternative), text, StringComparison.Ordinal)
        );
    }

    /// <summary>
    /// Every number of the issued text, but for the points of the band that are only drawn: of those the table names every tenth.
    /// </summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_number_of_the_certificate_comes_out(string name)
    {
        var json = CertificateSamples.Json(name);
        var file = CertificateReading.Pdf(json);
        string[] forms =
        [
            CertificateReading.Words(file),
            CertificateReading.Words(CertificateDocuments.Html(json, false)),
            CertificateDocuments.Text(json, false),
        ];
        (string Path, decimal Value)[] numbers =
        [
            .. CertificateReading.Numbers(json).Where(one => !DrawnOnly().IsMatch(one.Path)),
        ];
        Assert.True(numbers.Length > 100, $"only {numbers.Length} numbers were found");
        foreach (var form in forms)
        {
            var written = CertificateReading.NumbersIn(form);
            Assert.All(
                numbers,
                one => Assert.True(CertificateReading.IsWritten(one, written), $"{one.Path} = {one.Value} is missing")
            );
        }
    }

    /// <summary>The check above finds a number that is written wrongly, whichever of these it is.</summary>
    [Fact]
    public void A_number_that_comes_out_wrong_is_found()
    {
        var whole = CertificateSamples.Of("passing");
        var written = CertificateReading.NumbersIn(CertificateDocuments.Text(CertificateText.Write(whole), false));
        var right = whole.Scales.Right;
        CertifiedScale[] wrong =
        [
            right with
            {
                Line = right.Line with { Y1 = right.Line.Y1 + 0.1 },
            },
            right with
            {
                Line = right.Line with { UncertaintyOfY2 = 3.3 * right.Line.UncertaintyOfY2 },
            },
            right with
            {
                Budget = right.Budget with { ExpandedFor95 = 3.3 * right.Budget.ExpandedFor95 },
            },
            right with
            {
                Means = [right.Means[0] with { Error = right.Means[0].Error + 0.1 }, .. right.Means.Skip(1)],
            },
            right with
            {
                Readings = [right.Readings[0] with { TemporalMicrometres = 98_761 }, .. right.Readings.Skip(1)],
            },
        ];
        Assert.All(
            wrong,
            scale =>
                Assert.Contains(
                    CertificateReading.Numbers(
                        CertificateText.Write(whole with { Scales = whole.Scales with { Right = scale } })
                    ),
                    one => !DrawnOnly().IsMatch(one.Path) && !CertificateReading.IsWritten(one, written)
                )
        );
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void The_page_carries_nothing_that_runs_and_is_served_with_its_own_style_alone(string name, bool isDraft)
    {
        var json = CertificateSamples.Json(name);
        using var page = new HtmlParser().ParseDocument(CertificateDocuments.Html(json, isDraft));
        Assert.Empty(page.QuerySelectorAll("script, link, img, iframe, [style], [onclick], [onload]"));
        Assert.All(page.QuerySelectorAll("table"), table => Assert.NotNull(table.QuerySelector("caption")));
        Assert.All(page.QuerySelectorAll("th"), head => Assert.NotNull(head.GetAttribute("scope")));
        Assert.Equal(2, page.QuerySelectorAll("svg").Length);
        Assert.All(page.QuerySelectorAll("svg"), svg => Assert.NotEmpty(svg.QuerySelector("desc")!.TextContent));
        var style = Assert.Single(page.QuerySelectorAll("style")).TextContent;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)));
        var policy = CertificateDocuments.HtmlPolicy(json, isDraft);
        Assert.Contains($"style-src 'sha256-{hash}'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
    }

    [Fact]
    public void What_people_wrote_cannot_become_a_part_of_page_or_style()
    {
        const string Nasty = "\"; } </style></p><script>alert(1)</script><img src=x onerror=alert(2)> \\0 */ & \n";
        var whole = CertificateSamples.Of("set-aside");
        var nasty = whole with
        {
            Clinic = Nasty,
            IssuedBy = Nasty,
            Instrument = whole.Instrument with { Serial = Nasty, Model = Nasty, Firmware = Nasty },
            Run = whole.Run with { Conditions = Nasty, Technician = Nasty },
            Discs = whole.Discs with { Name = Nasty, CertificateNumber = Nasty, CertifiedBy = Nasty },
            Scales = whole.Scales.Select(
                (_, scale) =>
                    scale with
                    {
                        Readings = [.. scale.Readings.Select(r => r with { Reason = Nasty, By = Nasty })],
                    }
            ),
        };
        using var page = new HtmlParser().ParseDocument(
            CertificateDocuments.Html(CertificateText.Write(nasty), isDraft: false)
        );
        Assert.Empty(page.QuerySelectorAll("script, img"));
        var style = Assert.Single(page.QuerySelectorAll("style")).TextContent;
        Assert.DoesNotContain("alert(", style, StringComparison.Ordinal);
        Assert.Contains(
            PdfReading.Squeeze(Nasty),
            PdfReading.Squeeze(page.Body!.TextContent),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_sheet_says_which_it_is_and_nothing_lies_on_anything(string name)
    {
        var json = CertificateSamples.Json(name);
        var document = CertificateDocuments.Compose(json, false);
        using var pdf = new PdfReading(CertificateReading.Pdf(json));
        Assert.Equal($"{document.Title}: {document.Running}", pdf.Title);
        for (var n = 0; n < pdf.Pages.Count; n++)
        {
            var letters = PdfReading.Squeeze(string.Concat(pdf.Pages[n].Letters.Select(l => l.Value)));
            Assert.Contains($"Page{n + 1}of{pdf.Pages.Count}", letters, StringComparison.Ordinal);
            Assert.Contains("Calibrationcertificate12,instrumentQ7", letters, StringComparison.Ordinal);
            PdfLayout.Check(pdf.Pages[n]);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Letters_are_embedded_and_large_enough_and_the_file_is_tagged(string name)
    {
        var json = CertificateSamples.Json(name);
        var document = CertificateDocuments.Compose(json, false);
        using var pdf = new PdfReading(CertificateReading.Pdf(json));
        var letters = pdf.Pages.SelectMany(page => page.Letters).ToList();
        Assert.All(letters, letter => Assert.Matches("^[A-Z]{6}\\+DejaVu", letter.FontName));
        // A small x of 1.2 mm, and of 1.0 mm where it stands beside, as in reports.
        Assert.True(letters.Where(l => l.Value == "x").Min(l => l.BoundingBox.Height) * 25.4 / 72 >= 1.2);
        var tags = pdf.Tags();
        Assert.Equal(1, tags.Count(tag => tag.Tag == "H1"));
        Assert.Equal(document.Sections.Count, tags.Count(tag => tag.Tag == "H2"));
        Assert.Equal(
            document.Sections.SelectMany(s => s.Parts).OfType<ReportFigure>().Select(figure => figure.Alternative),
            tags.Where(tag => tag.Tag == "Figure").Select(tag => tag.Alternative)
        );
    }

    [Fact]
    public void The_same_text_is_always_the_same_file()
    {
        var json = CertificateSamples.Json("passing");
        Assert.Equal(CertificateReading.Pdf(json), CertificateReading.Pdf(json));
        Assert.NotEqual(CertificateReading.Pdf(json), CertificateReading.Pdf(json, isDraft: true));
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void No_word_is_missing(string name, bool isDraft) =>
        Assert.DoesNotMatch(MissingWord(), CertificateDocuments.Text(CertificateSamples.Json(name), isDraft));

    [Theory]
    [InlineData("")]
    [InlineData("no text at all")]
    [InlineData("{}")]
    [InlineData("null")]
    public void What_is_no_certificate_is_refused_in_words(string json)
    {
        var refused = Assert.Throws<FormatException>(() => CertificateDocuments.Text(json, false));
        Assert.Contains("pupilbridge journal verify", refused.Message, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"band\[\d*[1-9]\]")]
    private static partial Regex DrawnOnly();

    [GeneratedRegex(@"\[[A-Z][A-Za-z0-9.-]+\]")]
    private static partial Regex MissingWord();
}
