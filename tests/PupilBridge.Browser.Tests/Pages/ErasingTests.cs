using Microsoft.Playwright;
using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Two administrators erase a patient with the keyboard alone; every page on the way is looked at in both faces.</summary>
public sealed class ErasingTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    private const string Second = "CD";

    [Fact]
    public Task One_proposes_and_another_one_confirms_and_every_page_on_the_way_is_for_everybody() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var first = await stage.OpenAsync(People.Administrator, "/people");
                await AddSecondAsync(first);
                await Keyboard.FollowAsync(first, "nav.ways a[href='/erasing']");
                await LookAsync(first, "erasing-due");
                await Keyboard.FollowAsync(first, "main a[href='/erasing/proposed']");
                await Keyboard.TypeAsync(first, "#propose-erasure-patient", People.Patient);
                await Keyboard.TypeAsync(first, "#propose-erasure-ordered", "DPO");
                await Keyboard.TypeAsync(first, "#propose-erasure-reason", $"asked for by {People.Patient}");
                await Keyboard.FollowAsync(first, "#propose-erasure button[type=submit]");
                await Expect(first.Locator("#propose-erasure [role=alert]")).ToContainTextAsync("stay readable");
                await Keyboard.TypeAsync(first, "#propose-erasure-reason", "request 17");
                await Keyboard.FollowAsync(first, "#propose-erasure button[type=submit]");
                await Expect(first.Locator(".said")).ToContainTextAsync("Nothing is erased yet");
                await LookAsync(first, "erasing-proposed-one");
                await Keyboard.FollowAsync(first, "main tbody a");
                await Expect(first.Locator("#confirm-erasure")).ToHaveCountAsync(0);
                await LookAsync(first, "erasing-own");

                var second = await stage.OpenAsync(Second, "/erasing/proposed");
                await Keyboard.FollowAsync(second, "main tbody a");
                Assert.DoesNotContain(People.Patient, second.Url, StringComparison.Ordinal);
                await LookAsync(second, "erasing-confirm");
                await Keyboard.TypeAsync(second, "#confirm-erasure-number", People.Patient);
                await Keyboard.TypeAsync(second, "#confirm-erasure-mine", "not the password");
                await Keyboard.FollowAsync(second, "#confirm-erasure button[type=submit]");
                await Expect(second.Locator("#confirm-erasure-mine")).ToBeFocusedAsync();
                await Expect(second.Locator("#confirm-erasure-mine-wrong")).ToContainTextAsync("nothing was done");
                await Keyboard.TypeAsync(second, "#confirm-erasure-mine", ServedConsole.Password);
                await Keyboard.FollowAsync(second, "#confirm-erasure button[type=submit]");
                await Expect(second.Locator(".said")).ToContainTextAsync("Make a backup now");
                await Screenshots.TakeAsync(second, "erasing-done-dark-1280", whole: true);
                Assert.Empty(await AxeCheck.RunAsync(second));
                var shown = await stage.Console.AskAsync("exams", "list");
                Assert.DoesNotContain(People.Patient, shown.GetRawText(), StringComparison.Ordinal);
            }
        );

    private static async Task AddSecondAsync(IPage page)
    {
        await Keyboard.TypeAsync(page, "#f-who", Second);
        await Keyboard.TabToAsync(page, "input[name=role][value=Administrator]");
        await page.Keyboard.PressAsync("Space");
        await Keyboard.TypeAsync(page, "#f-password", ServedConsole.Password);
        await Keyboard.TypeAsync(page, "#f-again", ServedConsole.Password);
        await Keyboard.TypeAsync(page, "#f-mine", ServedConsole.Password);
        await Keyboard.FollowAsync(page, "main form button[type=submit]");
        await Expect(page.Locator(".said")).ToContainTextAsync(Second);
    }

    /// <summary>Looks at a page in both faces and leaves it as it was opened.</summary>
    private static async Task LookAsync(IPage page, string name)
    {
        foreach (var face in PageTour.Faces)
        {
            await page.Context.AddCookiesAsync([
                new()
                {
                    Name = "face",
                    Value = face,
                    Url = new Uri(page.Url).GetLeftPart(UriPartial.Authority),
                },
            ]);
            await page.GotoAsync(page.Url);
            var picture = await Screenshots.TakeAsync(page, $"{name}-{face}-1280", whole: true);
            Assert.Empty(await AxeCheck.RunAsync(page));
            Assert.Empty(await LayoutCheck.RunAsync(page));
            if (face == "dark")
            {
                var light = PixelLight.Of(picture);
                Assert.InRange(light.Mean, 0, PixelLight.DimMean);
                Assert.InRange(light.BrightShare, 0, PixelLight.DimBrightShare);
            }
        }
    }
}
