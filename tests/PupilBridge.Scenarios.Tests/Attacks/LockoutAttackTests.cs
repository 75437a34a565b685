using System.Net;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Guessing passwords, one by one and many at once (ASVS 5.0, 6.3.1; the limits are those of docs/sign-in.md).</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class LockoutAttackTests(AttackedService service)
{
    [Fact]
    public async Task Twenty_guesses_at_once_get_no_more_than_five_answers_and_then_even_the_right_one_waits()
    {
        var tries = Enumerable.Range(0, 20).Select(n => TryAsync(AttackedService.Victim, $"wrong guess {n}")).ToArray();
        var answers = await Task.WhenAll(tries);
        Assert.All(answers, answer => Assert.True((int)answer.Status is 422 or 429, $"{(int)answer.Status}"));
        var checkedOnes = answers.Count(answer =>
            answer.Text.Contains("Name or password is wrong", StringComparison.Ordinal)
        );
        Assert.InRange(checkedOnes, 1, 4);
        var right = await TryAsync(AttackedService.Victim, AttackedService.Password);
        Assert.True((int)right.Status is 422 or 429, $"{(int)right.Status}");
        await service.StandsAsync();
    }

    [Fact]
    public async Task Whether_a_name_exists_cannot_be_told_from_the_answer()
    {
        var there = await TryAsync(AttackedService.Technician, "not the password");
        var nobody = await TryAsync("QQ", "not the password");
        Assert.Equal(there.Status, nobody.Status);
        Assert.Equal(Bare(there.Text, AttackedService.Technician), Bare(nobody.Text, "QQ"));
    }

    [Fact]
    public async Task A_password_of_a_megabyte_is_refused_before_it_is_read()
    {
        using var visitor = service.Visit();
        var answer = await visitor.SendFormAsync(
            "/sign-in",
            "sign-in",
            ("who", AttackedService.Examiner),
            ("password", new string('x', 1 << 20))
        );
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        await service.StandsAsync();
    }

    /// <summary>A page without what differs for every form: the tokens, and the name that was typed.</summary>
    private static string Bare(string page, string who) =>
        System
            .Text.RegularExpressions.Regex.Replace(page, "value=\"[^\"]*\"", "")
            .Replace(who, "", StringComparison.Ordinal);

    private async Task<Heard> TryAsync(string who, string password)
    {
        using var visitor = service.Visit();
        return await visitor.SignInAsync(who, password);
    }
}
