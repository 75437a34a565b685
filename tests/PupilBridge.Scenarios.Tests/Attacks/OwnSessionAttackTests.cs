using System.Net;
using System.Text.RegularExpressions;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>The list of a person's sessions at the real service, over two connections from two addresses (ASVS 5.0, 7.5.2).</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class OwnSessionAttackTests(AttackedService service)
{
    [Fact]
    public async Task Who_finds_a_session_that_is_not_theirs_ends_it_and_its_cookie_opens_nothing()
    {
        using var stranger = await service.FreshAsync("F8");
        using var owner = await service.FreshAsync("F8");
        var page = await owner.GetAsync("/account");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        var tags = Regex.Matches(page.Text, "name=\"ended\" value=\"([0-9a-f]{16})\"");
        Assert.Equal(2, tags.Count);
        Assert.Contains($"{stranger.Own} (the machine of the service)", page.Text, StringComparison.Ordinal);
        Assert.Contains($"{owner.Own} (the machine of the service)", page.Text, StringComparison.Ordinal);
        var tag = tags[0].Groups[1].Value;
        // Whoever copied the cookie does not know the password.
        foreach (var guess in new[] { "", "not the password" })
        {
            var refused = await owner.SendFormAsync("/account", "end-session", ("ended", tag), ("mine", guess));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
            Assert.Equal("F8", await stranger.WhoAsync());
        }

        var answer = await owner.SendFormAsync(
            "/account",
            "end-session",
            ("ended", tag),
            ("mine", AttackedService.Password)
        );
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Null(await stranger.WhoAsync());
        Assert.Equal(HttpStatusCode.Redirect, (await stranger.GetAsync("/exams")).Status);
        Assert.Equal("F8", await owner.WhoAsync());
        await service.StandsAsync();
    }
}
