using Microsoft.Playwright;
using PupilBridge.Browser.Served;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>A clinician reviews, signs and amends, with the keyboard alone.</summary>
public sealed class SigningTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task A_reviewed_exam_is_signed_and_amended_and_the_first_version_stays_as_it_was_signed() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                var exam = await stage.ExamAsync();
                var page = await stage.OpenAsync(People.Clinician, "/review");
                await Expect(page.Locator(".urgent")).ToContainTextAsync(People.Patient);
                await Keyboard.FollowAsync(page, $".urgent a[href='/exams/{exam}']");
                await Keyboard.FollowAsync(page, "#sign button[type=submit]");
                Assert.Equal("signed", await stage.StatusAsync(exam));
                var first = await page.Locator(".signed-version pre.exact").TextContentAsync();

                await AmendAsync(page, "OD was graded while the patient blinked");
                await JudgeAsync(page, "direct OD", "2");
                await Keyboard.FollowAsync(page, "#sign button[type=submit]");
                Assert.Equal("amended", await stage.StatusAsync(exam));
                await Expect(page.Locator(".signed-version")).ToHaveCountAsync(2);
                await Expect(page.Locator(".signed-version .reason")).ToContainTextAsync("blinked");

                stage.Console.Stop();
                var signed = JournalText
                    .ReadAll(stage.Console.DataFolder)
                    .Select(e => e.Entry)
                    .OfType<ExamSigned>()
                    .ToArray();
                Assert.Equal([1, 2], signed.Select(s => s.Version));
                Assert.Equal(first, signed[0].Record);
                Assert.NotEqual(signed[0].Record, signed[1].Record);
                Assert.All(signed, s => Assert.Equal(People.Clinician, s.Who.Value));
            }
        );

    [Fact]
    public Task Who_edits_an_exam_that_was_signed_elsewhere_is_told_and_loses_nothing_typed() =>
        PageStage.PlayAsync(
            output,
            fixture,
            async stage =>
            {
                const string Remark = "patient wore tinted lenses until the room was dim";
                var exam = await stage.ExamAsync();
                var page = await stage.OpenAsync(People.Examiner, $"/exams/{exam}");
                await Keyboard.UnfoldAsync(page, "#deed-note");
                await Keyboard.TypeAsync(page, "#note-text", Remark);

                var elsewhere = await stage.OpenAsync(People.Clinician, $"/exams/{exam}");
                await Keyboard.FollowAsync(elsewhere, "#sign button[type=submit]");
                Assert.Equal("signed", await stage.StatusAsync(exam));

                await Keyboard.FollowAsync(page, "#note button[type=submit]");
                await Expect(page.Locator("#note [role=alert]")).ToBeVisibleAsync();
                await Expect(page.Locator("#note [role=alert]")).ToContainTextAsync("signed");
                await Expect(page.Locator("#note-text")).ToHaveValueAsync(Remark);
                Assert.Equal("signed", await stage.StatusAsync(exam));
            }
        );

    private static async Task AmendAsync(IPage page, string reason)
    {
        await Keyboard.UnfoldAsync(page, "#deed-amend");
        await Keyboard.TypeAsync(page, "#amend-reason", reason);
        await Keyboard.FollowAsync(page, "#amend button[type=submit]");
    }

    private static async Task JudgeAsync(IPage page, string what, string how)
    {
        await Keyboard.UnfoldAsync(page, "#deed-judge");
        await Keyboard.ChooseAsync(page, "#judge-what", what);
        await Keyboard.ChooseAsync(page, "#judge-how", how);
        await Keyboard.FollowAsync(page, "#judge button[type=submit]");
    }
}
