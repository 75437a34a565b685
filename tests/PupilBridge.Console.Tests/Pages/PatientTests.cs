using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class PatientTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Fact]
    public async Task A_new_patient_is_recorded_and_shown()
    {
        var page = await browser.GoAsync("/patients");
        browser.House.Outcome = entry =>
        {
            var patient = (PatientEntry)entry;
            browser.House.Add(new Clinic.Views.PatientView(patient.Patient, patient.Name, patient.BirthDate));
            return new EntryOutcome.Recorded(5, null);
        };
        var next = await browser.SendFormAsync(
            page,
            "#add-patient",
            ("number", " Q-1010 "),
            ("name", "Ada Quay"),
            ("birth", "1980-02-29")
        );
        var entry = Assert.IsType<PatientEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            ("Q-1010", "Ada Quay", new DateOnly(1980, 2, 29)),
            (entry.Patient, entry.Name, entry.BirthDate!.Value)
        );
        Assert.Equal("/patients/Q-1010", browser.At);
        Assert.Contains("Ada Quay", next.QuerySelector("h1")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_who_is_known_already_is_not_overwritten_and_the_way_to_them_is_shown()
    {
        var page = await browser.GoAsync("/patients");
        var again = await browser.SendFormAsync(
            page,
            "#add-patient",
            ("number", "Q-1001"),
            ("name", "Somebody Else"),
            ("birth", "1970-01-01")
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.Equal("/patients/Q-1001", again.QuerySelector("#add-patient [role=alert] a")!.GetAttribute("href"));
        Assert.Contains(
            "known already",
            again.QuerySelector("#add-patient-number-wrong")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("Somebody Else", again.QuerySelector("#add-patient-name")!.GetAttribute("value"));
        Assert.Equal("1970-01-01", again.QuerySelector("#add-patient-birth")!.GetAttribute("value"));
    }

    [Fact]
    public async Task The_same_details_once_more_change_nothing_and_lead_to_the_patient()
    {
        var page = await browser.GoAsync("/patients");
        var next = await browser.SendFormAsync(
            page,
            "#add-patient",
            ("number", "Q-1001"),
            ("name", "Tamsin Quill"),
            ("birth", "1984-03-09")
        );
        Assert.Empty(browser.House.Entered);
        Assert.Equal("/patients/Q-1001", browser.At);
        Assert.Contains("nothing was changed", next.QuerySelector(".said")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "1980-01-01", "number", "Give the patient’s number")]
    [InlineData("Q-1", "1980-02-30", "birth", "is no date")]
    [InlineData("Q-1", "2999-01-01", "birth", "still to come")]
    public async Task What_is_wrong_stands_beside_its_field_and_all_stays_typed(
        string number,
        string birth,
        string field,
        string words
    )
    {
        var page = await browser.GoAsync("/patients");
        var again = await browser.SendFormAsync(
            page,
            "#add-patient",
            ("number", number),
            ("name", "Ada"),
            ("birth", birth)
        );
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            words,
            again.QuerySelector($"#add-patient-{field}-wrong")!.TextContent,
            StringComparison.Ordinal
        );
        var input = again.QuerySelector($"#add-patient-{field}")!;
        Assert.Equal("true", input.GetAttribute("aria-invalid"));
        Assert.Contains($"add-patient-{field}-wrong", input.GetAttribute("aria-describedby"), StringComparison.Ordinal);
        Assert.Equal("Ada", again.QuerySelector("#add-patient-name")!.GetAttribute("value"));
        Assert.Equal(birth, again.QuerySelector("#add-patient-birth")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Details_are_corrected_under_the_same_number()
    {
        var page = await browser.GoAsync("/patients/Q-1001");
        Assert.Equal("Tamsin Quill", page.QuerySelector("#correct-patient-name")!.GetAttribute("value"));
        await browser.SendFormAsync(page, "#correct-patient", ("name", "Tamsin Quill-Ebb"), ("birth", ""));
        var entry = Assert.IsType<PatientEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            ("Q-1001", "Tamsin Quill-Ebb", null, true),
            (entry.Patient, entry.Name, entry.BirthDate, entry.IsCorrection)
        );
    }

    [Fact]
    public async Task A_clinic_that_wants_no_names_is_asked_for_none_and_shown_none()
    {
        using var nameless = new PageBrowser(adapt: settings => settings with { WantsNames = false });
        foreach (var path in new[] { "/patients", "/patients/Q-1001", "/day", "/exams", "/exams/2001" })
        {
            var page = await nameless.GoAsync(path);
            Assert.DoesNotContain("Tamsin", nameless.Text, StringComparison.Ordinal);
            Assert.Null(page.QuerySelector("input[name=name]"));
        }

        await nameless.SendFormAsync(
            await nameless.GoAsync("/patients/Q-1001"),
            "#correct-patient",
            ("birth", "1984-03-10")
        );
        Assert.Equal("Tamsin Quill", Assert.IsType<PatientEntry>(Assert.Single(nameless.House.Entered)).Name);
    }

    [Fact]
    public async Task The_plot_is_a_picture_of_its_own_with_a_policy_of_its_own_and_the_table_says_the_same()
    {
        var page = await browser.GoAsync("/patients/Q-1001");
        var address = page.QuerySelector("figure img")!.GetAttribute("src")!;
        Assert.Equal(5, page.QuerySelectorAll("table.visits tbody tr").Length);
        await browser.GoAsync(address);
        Assert.Equal("image/svg+xml", browser.Answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains(
            "default-src 'none'",
            browser.Answer.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
        var dark = browser.Text;
        Assert.All(
            ["OD bright", "OD dim", "OS bright", "OS dim", "Diameter in mm"],
            words => Assert.Contains(words, dark, StringComparison.Ordinal)
        );
        await browser.GoAsync(address.Replace("dark", "light", StringComparison.Ordinal));
        Assert.NotEqual(dark, browser.Text);
    }

    public void Dispose() => browser.Dispose();
}
