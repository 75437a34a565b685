using System.Text;
using AngleSharp.Html.Parser;
using PdfSharp.Pdf;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>
/// Names, numbers and remarks that are made to become a part of the file they are printed into (OWASP ASVS 5.0, 1.2.1 and 1.2.10): PDF
/// operators and objects, markup, scripts, turned writing, controls, and words without an end. Whatever it is, it is text and does nothing.
/// </summary>
public sealed class HostileTextTests
{
    private static readonly string[] Texts =
    [
        ") Tj ET Q (",
        "\\) Tj\\(\\\\)\\)((",
        "endstream endobj 9 0 obj << /S /JavaScript /JS (app.alert(1)) >> endobj",
        ">> /OpenAction << /S /URI /URI (http://quay.invalid/) >> <<",
        "%PDF-1.7 trailer << /Root 1 0 R >> startxref 0 %%EOF",
        "<48656C6C6F> <</Type/Catalog>> [0 0 R]",
        "<script>alert(1)</script><img src=x onerror=alert(2)>",
        "</style><style>*{display:none}</style>",
        "\"><a href=\"javascript:alert(1)\" onclick='alert(2)'>'",
        "]]><!--<svg onload=alert(1)>-->",
        "&lt;b&gt; &#x202E; &amp;",
        "Pilot \u202E1891-50-40 nrob\u202C",
        "Pilot \u2067\u2068one\u2069\u2069 \u200Ftwo",
        "Pilot\0\u001b[31m\u001b]0;title\u0007\u009b2J",
        "\uFEFF\uFFFE\uFFFF",
        new('W', 3000),
        new('\u0301', 200),
        "{0} {1} {{99}} %s %n",
    ];

    public static TheoryData<string> Hostile => [.. Texts];

    [Theory]
    [MemberData(nameof(Hostile))]
    public void A_PDF_shows_it_as_text_and_does_nothing(string hostile)
    {
        var report = Report(hostile);
        foreach (var paper in new[] { ReportPaper.A4, ReportPaper.A5 })
        {
            var file = PdfReport.Write(report, paper);
            using var pdf = new PdfReading(file);
            var letters = pdf.Letters;
            Assert.All(Samples.Said(report), said => Assert.Contains(Printed(said), letters, StringComparison.Ordinal));
            Assert.All(pdf.Pages, page => Assert.Empty(page.GetAnnotations()));
            var (found, objects) = PdfActions.Of(file);
            Assert.Empty(found);
            Assert.True(objects > 20, $"only {objects} objects were looked at");
        }
    }

    [Theory]
    [MemberData(nameof(HostileLines))]
    public void Nothing_is_set_outside_the_margins_or_on_something_else(string hostile)
    {
        foreach (var paper in new[] { ReportPaper.A4, ReportPaper.A5 })
        {
            using var pdf = new PdfReading(PdfReport.Write(Report(hostile), paper));
            foreach (var page in pdf.Pages.Take(3))
                PdfLayout.Check(page);
        }
    }

    [Theory]
    [MemberData(nameof(Hostile))]
    public void A_page_shows_it_as_text_and_runs_nothing(string hostile)
    {
        var report = Report(hostile);
        var html = HtmlReport.Write(report, ReportPaper.A4);
        using var page = new HtmlParser().ParseDocument(html);
        Assert.Empty(page.QuerySelectorAll("script, link, img, a, iframe, object, embed, form, base"));
        Assert.All(
            page.All,
            element =>
                Assert.DoesNotContain(
                    element.Attributes,
                    one => one.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase) || one.Name == "style"
                )
        );
        Assert.Single(page.QuerySelectorAll("style"));
        var said = PdfReading.Squeeze(page.Body!.TextContent);
        Assert.All(Samples.Said(report), text => Assert.Contains(Visible(text), said, StringComparison.Ordinal));
        Assert.DoesNotContain(html, IsHidden);
    }

    [Theory]
    [MemberData(nameof(Hostile))]
    public void Plain_text_moves_no_cursor_and_turns_no_line(string hostile)
    {
        var text = TextReport.Write(Report(hostile));
        Assert.DoesNotContain(text, IsHidden);
        Assert.Contains(Visible(hostile), PdfReading.Squeeze(text), StringComparison.Ordinal);
    }

    /// <summary>The look itself: what is planted into a file is found.</summary>
    [Theory]
    [InlineData("/OpenAction", "/JavaScript")]
    [InlineData("/AA", "/URI")]
    public void An_action_that_is_planted_is_found(string where, string kind)
    {
        ReportFonts.Use();
        using var document = new PdfDocument();
        document.AddPage();
        var action = new PdfDictionary(document);
        action.Elements.SetName("/S", kind);
        document.Internals.Catalog.Elements[where] = action;
        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        var (found, _) = PdfActions.Of(bytes.ToArray());
        Assert.Contains(where[1..], found);
        Assert.Contains(kind[1..], found);
    }

    /// <summary>A report in which everything that people can type is hostile.</summary>
    private static ReportDocument Report(string hostile)
    {
        var outgoing = Samples.Of("abnormal");
        // Numbers and sign-in names have 64 characters at most, and no controls (PatientId, PersonId).
        var brief = new string([.. hostile.Where(c => !char.IsControl(c)).Take(64)]).Trim();
        var record = outgoing.Record with
        {
            Patient = brief,
            Opened = outgoing.Record.Opened with { Who = brief },
            Notes = [new(hostile, brief, outgoing.Record.Opened.At, 5)],
            EyeStatuses = [.. outgoing.Record.EyeStatuses.Select(status => status with { Who = brief })],
        };
        return ReportComposer.Compose(
            outgoing with
            {
                Record = record,
                Signature = outgoing.Signature! with { Who = brief },
                Patient = new PatientView(brief, hostile, new DateOnly(1981, 5, 4)),
            },
            Samples.Setting with
            {
                ClinicName = $"Quayside {brief}",
            }
        );
    }

    /// <summary>Without accents that stand on no letter, which by their design begin left of their place.</summary>
    public static TheoryData<string> HostileLines => [.. Texts.Where(text => text[0] != '\u0301')];

    private static bool IsHidden(char one) =>
        (char.IsControl(one) && one != '\n')
        || one is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069') or '\uFFFE' or '\uFFFF';

    /// <summary>A text as a reader sees it: no controls, marks of direction by their numbers, without white space.</summary>
    private static string Visible(string text)
    {
        var visible = new StringBuilder();
        foreach (var one in text.Where(c => !char.IsControl(c)))
            visible.Append(IsHidden(one) ? $"[U+{(int)one:X4}]" : one.ToString());
        return PdfReading.Squeeze(visible.ToString());
    }

    /// <summary>The same on paper: what the letters do not have stands there by its number, too.</summary>
    private static string Printed(string text) => PdfReading.Squeeze(ReportFonts.Coverage.Printable(Visible(text)));
}
