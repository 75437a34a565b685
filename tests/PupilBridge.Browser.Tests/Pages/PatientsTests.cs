using Microsoft.Playwright;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Patients are found, added and put on the day's list with the keyboard alone.</summary>
public sealed class PatientsTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task A_patient_who_is_entered_twice_with_other_details_is_pointed_out_and_nothing_typed_is_lost() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.OpenAsync(People.Examiner, "/patients");
                await AddAsync(page, "Q-2001", "A. Brennan", "1980-02-01");
                await page.WaitForURLAsync("**/patients/Q-2001");
                await page.GotoAsync("/patients");
                await AddAsync(page, "Q-2001", "B. Carrow", "1991-07-30");
                var form = page.Locator("#add-patient");
                await Expect(form.Locator("[role=alert]").First).ToContainTextAsync("Q-2001");
                await Expect(form.Locator("a[href='/patients/Q-2001']")).ToBeVisibleAsync();
                await Expect(page.Locator("#add-patient-name")).ToHaveValueAsync("B. Carrow");
                await Expect(page.Locator("#add-patient-birth")).ToHaveValueAsync("1991-07-30");
                await Keyboard.FollowAsync(page, "#add-patient a[href='/patients/Q-2001']");
                await Expect(page.Locator("main")).ToContainTextAsync("A. Brennan");
                await Expect(page.Locator("main")).Not.ToContainTextAsync("B. Carrow");
            }
        );

    [Fact]
    public Task A_patient_is_found_by_the_beginning_of_a_name_and_an_exam_by_its_finding() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.OpenAsync(People.Examiner, "/patients");
                await AddAsync(page, "Q-2002", "Maud Ferrier", "1975-11-05");
                await page.GotoAsync("/patients");
                await Keyboard.TypeAsync(page, "#find-q", "ferr");
                await Keyboard.FollowAsync(page, "form.find button[type=submit]");
                await Keyboard.FollowAsync(page, "main a[href='/patients/Q-2002']");
                await Expect(page.Locator("main")).ToContainTextAsync("Maud Ferrier");
                await page.GotoAsync("/exams?finding=swing-asymmetry");
                await Expect(page.Locator("table.exams")).ToContainTextAsync(People.Patient);
            }
        );

    [Fact]
    public Task A_form_that_is_refused_far_down_its_page_is_in_sight_with_the_focus_on_what_is_wrong() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.OpenAsync(People.Examiner, "/exams");
                await Keyboard.FollowAsync(page, "table.exams tbody a");
                await page.SetViewportSizeAsync(1280, 500);
                await Keyboard.UnfoldAsync(page, "#deed-whose");
                await Keyboard.TypeAsync(page, "#whose-patient", "Q-9999");
                await Keyboard.TypeAsync(page, "#whose-reason", "Wrong one chosen.");
                await Keyboard.FollowAsync(page, "#whose button[type=submit]");
                await Expect(page.Locator("#whose-patient")).ToBeFocusedAsync();
                await Expect(page.Locator("#whose-patient-wrong")).ToBeInViewportAsync();
            }
        );

    private static async Task AddAsync(IPage page, string number, string name, string birth)
    {
        await Keyboard.TypeAsync(page, "#add-patient-number", number);
        await Keyboard.TypeAsync(page, "#add-patient-name", name);
        await Keyboard.TabToAsync(page, "#add-patient-birth");
        // A date field of this browser takes month, day and year one after the other.
        var parts = birth.Split('-');
        await page.Keyboard.TypeAsync($"{parts[1]}{parts[2]}{parts[0]}");
        await Keyboard.FollowAsync(page, "#add-patient button[type=submit]");
    }
}
