using System.Net;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>
/// At a screen that was left, a stranger ends no other session, makes no key and changes nobody: the password of whoever is signed in is asked
/// for once more (OWASP ASVS 5.0, 7.5.1 and 7.5.2).
/// </summary>
public sealed class PasswordAgainTests : IDisposable
{
    private const string Fresh = "four grey pilots";
    private readonly SignInHouse house = new();

    /// <summary>Path, form, the field of the own password, and what else is typed.</summary>
    public static TheoryData<string, string, string, string> Forms =>
        new()
        {
            { "/account", "end-session", "mine", "ended=others" },
            { "/keys", "add-key", "mine", "name=registry&scope=records" },
            { "/people", "add-person", "mine", $"who=NEW&role=Administrator&password={Fresh}&again={Fresh}" },
            { "/people/JL", "roles", "mine-roles", "role=Administrator" },
            { "/people/JL", "password", "mine-password", $"password={Fresh}&again={Fresh}" },
            { "/people/JL", "switch", "mine-switch", "on=0" },
        };

    public void Dispose() => house.Dispose();

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task Without_the_own_password_or_with_a_wrong_one_nothing_is_done_and_with_it_it_is(
        string path,
        string form,
        string field,
        string typed
    )
    {
        var (here, _) = await SignedInTwiceAsync();
        var fields = Fields(typed);
        var before = State();
        var missing = await here.SendFormAsync(path, form, fields);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, missing.Status);
        Assert.Contains("Type your own password", missing.Text, StringComparison.Ordinal);
        var wrong = await here.SendFormAsync(path, form, [.. fields, (field, Fresh)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("Your own password is wrong", wrong.Text, StringComparison.Ordinal);
        Assert.Matches($"<input id=\"f-{field}\"[^>]*aria-invalid=\"true\"", wrong.Text);
        Assert.Equal(before, State());
        Assert.Equal("AB Refused console", house.Journal.SignIns[^1]);
        var done = await here.SendFormAsync(path, form, [.. fields, (field, SignInHouse.Good)]);
        Assert.Equal(HttpStatusCode.OK, done.Status);
        Assert.NotEqual(before, State());
        Assert.DoesNotContain("AB SignedIn console", house.Journal.SignIns.Skip(3));
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task Guessing_it_locks_as_at_the_sign_in_and_then_even_the_right_one_waits(
        string path,
        string form,
        string field,
        string typed
    )
    {
        var (here, _) = await SignedInTwiceAsync();
        var fields = Fields(typed);
        var before = State();
        for (var n = 0; n < 5; n++)
        {
            await here.SendFormAsync(path, form, [.. fields, (field, $"{Fresh} {n}")]);
        }

        Assert.NotNull(house.People.Find("AB")!.LockedUntil);
        Assert.Equal("AB LockedOut console", house.Journal.SignIns[^1]);
        var answer = await here.SendFormAsync(path, form, [.. fields, (field, SignInHouse.Good)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Equal(before, State());
        Assert.Equal("AB", await here.WhoAsync());
    }

    [Fact]
    public async Task A_machine_gets_no_more_tries_than_at_the_sign_in_also_where_each_is_right()
    {
        var (here, _) = await SignedInTwiceAsync();
        HttpStatusCode[] answers = new HttpStatusCode[SignInTries + 1];
        for (var n = 0; n < answers.Length; n++)
        {
            answers[n] = (
                await here.SendFormAsync("/people/JL", "switch", ("on", "0"), ("mine-switch", SignInHouse.Good))
            ).Status;
        }

        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
    }

    [Fact]
    public async Task Switching_a_key_off_waits_for_no_password()
    {
        var (here, _) = await SignedInTwiceAsync();
        await here.SendFormAsync(
            "/keys",
            "add-key",
            ("name", "registry"),
            ("scope", "records"),
            ("mine", SignInHouse.Good)
        );
        await here.SendFormAsync("/keys", "revoke-key", ("revoked", "registry"));
        Assert.NotNull(Assert.Single(house.People.ListKeys()).RevokedAt);
    }

    private const int SignInTries = PupilBridge.Console.SignIn.SignInPace.PerName;

    /// <summary>An administrator in two browsers, and somebody whom they look after.</summary>
    private async Task<(Browser Here, Browser There)> SignedInTwiceAsync()
    {
        await house.AddAsync("AB", ClinicRole.Administrator);
        await house.AddAsync("JL", ClinicRole.Examiner);
        var there = await house.SignedInAsync("AB");
        return (await house.SignedInAsync("AB"), there);
    }

    /// <summary>Everything that the forms could change.</summary>
    private string State() =>
        string.Join(
            '\n',
            [
                .. house
                    .People.List()
                    .Select(person => $"{person.Who} {person.Roles} {person.IsEnabled} {person.Stamp}"),
                .. house.People.ListKeys().Select(key => $"{key.Name} {key.RevokedAt}"),
                .. house.Service<PupilBridge.Console.SignIn.SessionBook>().Of("AB").Select(session => session.Tag),
            ]
        );

    private static (string, string)[] Fields(string typed) =>
        [.. typed.Split('&').Select(pair => pair.Split('=')).Select(pair => (pair[0], pair[1]))];
}
