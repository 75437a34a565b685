using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>A technician types a set of discs in from its certificate.</summary>
public sealed class DiscsPageTests : IDisposable
{
    private static readonly (string Field, string Value)[] Good =
    [
        ("set", "Box 9"),
        ("certificate", "K-77/26"),
        ("issuer", "Harbour Metrology"),
        ("certified", "2026-05-04"),
        ("expires", ""),
        ("common", "0.0004"),
        ("name-1", "D2"),
        ("diameter-1", "2.001"),
        ("u-1", "0.0005"),
        ("name-2", "D4"),
        ("diameter-2", "4.002"),
        ("expanded-2", "0.0012"),
        ("k-2", "2"),
        ("name-4", "D6"),
        ("diameter-4", "5.998"),
        ("u-4", "5e-4"),
    ];

    private readonly PageBrowser browser = new(ClinicRole.Technician);

    [Fact]
    public async Task A_set_is_entered_as_typed_and_an_expanded_uncertainty_is_divided_and_shown_back()
    {
        var page = await browser.GoAsync("/bench/discs");
        var next = await browser.SendFormAsync(page, "#enter-discs", Good);
        var entry = Assert.IsType<DiscSetEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            ("Box 9", "K-77/26", "Harbour Metrology", new DateOnly(2026, 5, 4), null, 0.0004),
            (
                entry.Name,
                entry.CertificateNumber,
                entry.CertifiedBy,
                entry.Certified,
                entry.Expires,
                entry.CommonUncertaintyMillimetres
            )
        );
        Assert.Equal(
            [new DiscLine("D2", 2.001, 0.0005), new("D4", 4.002, 0.0006), new("D6", 5.998, 0.0005)],
            entry.Discs
        );
        Assert.Equal("/bench", browser.At);
        Assert.Contains(
            "D4: 4.002 mm, u = 0.0006 mm",
            next.QuerySelector(".said")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("diameter-1", "2,001", "comma")]
    [InlineData("diameter-1", "2 mm", "no number")]
    [InlineData("diameter-1", "", "diameter in mm")]
    [InlineData("name-2", "", "name on the disc")]
    [InlineData("u-1", "", "u, or U with k")]
    [InlineData("k-2", "", "such as 2")]
    [InlineData("k-2", "0", "above 0")]
    [InlineData("u-2", "0.0006", "not both")]
    [InlineData("certified", "4 May", "4 May")]
    [InlineData("common", "0,4", "comma")]
    [InlineData("set", " ", "a name")]
    public async Task What_is_wrong_is_said_at_its_field_and_what_was_typed_stays(
        string field,
        string typed,
        string words
    )
    {
        var page = await browser.GoAsync("/bench/discs");
        var again = await browser.SendFormAsync(
            page,
            "#enter-discs",
            [.. Good.Where(one => one.Field != field), (field, typed)]
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        var wrong = again.QuerySelector($"#enter-discs-{field}-wrong");
        Assert.NotNull(wrong);
        Assert.Contains(words, wrong.TextContent, StringComparison.Ordinal);
        Assert.Equal(typed, again.QuerySelector($"#enter-discs-{field}")!.GetAttribute("value"));
        Assert.Equal("5.998", again.QuerySelector("#enter-discs-diameter-4")!.GetAttribute("value"));
    }

    [Fact]
    public async Task A_set_that_the_house_refuses_stands_there_again_with_the_reason()
    {
        browser.House.Outcome = _ => new EntryOutcome.Refused("All diameters are the same.", "Put that right.");
        var page = await browser.GoAsync("/bench/discs");
        var again = await browser.SendFormAsync(page, "#enter-discs", Good);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(
            "All diameters are the same. Put that right.",
            again.QuerySelector("#enter-discs [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("Box 9", again.QuerySelector("#enter-discs-set")!.GetAttribute("value"));
    }

    [Fact]
    public async Task A_new_certificate_begins_with_the_discs_as_they_are_known_but_without_its_number_and_days()
    {
        var page = await browser.GoAsync("/bench/discs?set=Box%201");
        Assert.Equal("Box 1", page.QuerySelector("#enter-discs-set")!.GetAttribute("value"));
        Assert.Equal("4.002", page.QuerySelector("#enter-discs-diameter-2")!.GetAttribute("value"));
        Assert.Equal("", page.QuerySelector("#enter-discs-certificate")!.GetAttribute("value"));
        Assert.Equal("", page.QuerySelector("#enter-discs-certified")!.GetAttribute("value"));
    }

    public void Dispose() => browser.Dispose();
}
