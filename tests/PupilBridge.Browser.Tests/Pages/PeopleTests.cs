using System.Text.RegularExpressions;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Signing in and off, and the first start, with the keyboard alone.</summary>
public sealed partial class PeopleTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task A_refused_sign_in_says_so_and_keeps_the_name_and_the_right_password_leads_to_the_wanted_page() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.LookAsync("/exams");
                await SignIn.TypeAsync(page, People.Clinician, "not the password");
                var problem = page.Locator("[role=alert]");
                await Expect(problem).ToBeVisibleAsync();
                Assert.NotEqual("", (await problem.TextContentAsync())!.Trim());
                await Expect(page.Locator("input[autocomplete=username]")).ToHaveValueAsync(People.Clinician);
                await Expect(page.Locator("input[type=password]")).ToHaveValueAsync("");
                await SignIn.TypeAsync(page, People.Clinician);
                await page.WaitForURLAsync("**/exams");
                await Expect(page.Locator("table.exams")).ToContainTextAsync(People.Patient);
            }
        );

    [Fact]
    public Task Whoever_signed_off_sees_no_patient_any_more() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.OpenAsync(People.Examiner, "/account");
                await Keyboard.FollowAsync(page, "main a[href='/sign-off']");
                await Keyboard.FollowAsync(page, "main button[type=submit]");
                await page.GotoAsync("/exams");
                await Expect(page.Locator("input[type=password]")).ToBeVisibleAsync();
                await Expect(page.Locator("body")).Not.ToContainTextAsync(People.Patient);
            }
        );

    [Fact]
    public Task The_one_time_code_on_the_terminal_makes_the_administrator() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var page = await stage.LookAsync("/");
                await page.WaitForURLAsync("**/first-start*");
                await FillAsync(page, "AAAA-AAAA-AAAA");
                await Expect(page.Locator("[role=alert]")).ToBeVisibleAsync();
                await Eventually.Is(() => Code().IsMatch(stage.Console.Said), () => stage.Console.Said);
                await FillAsync(page, Code().Match(stage.Console.Said).Value);
                await page.WaitForURLAsync("**/people");
                await Expect(page.Locator("main")).ToContainTextAsync(People.Administrator);
            },
            isEmpty: true
        );

    private static async Task FillAsync(Microsoft.Playwright.IPage page, string code)
    {
        await Keyboard.TypeAsync(page, "#f-code", code);
        await Keyboard.TypeAsync(page, "#f-who", People.Administrator);
        await Keyboard.TypeAsync(page, "#f-password", ServedConsole.Password);
        await Keyboard.TypeAsync(page, "#f-again", ServedConsole.Password);
        await Keyboard.FollowAsync(page, "main button[type=submit]");
    }

    [GeneratedRegex("[A-Z0-9]{4}(-[A-Z0-9]{4}){1,}")]
    private static partial Regex Code();
}
