using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>An erasure in the console takes two administrators, the number and the second one's password.</summary>
public sealed class ProposalPagesTests : IDisposable
{
    private const string Good = SignInHouse.Good;
    private const string Number = "Q-1001";
    private readonly SignInHouse house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public async Task One_proposes_another_confirms_and_no_address_names_the_patient()
    {
        var (first, second) = await TwoAsync();
        var page = await ProposedAsync(first);
        Assert.DoesNotContain(Number, page, StringComparison.Ordinal);
        var shown = await second.GetAsync(page);
        Assert.Contains(Number, shown.Text, StringComparison.Ordinal);
        Assert.Contains("request 17", shown.Text, StringComparison.Ordinal);
        var done = await ConfirmAsync(second, page, Number, Good);
        Assert.Equal(HttpStatusCode.OK, done.Status);
        Assert.Contains("It is erased. Make a backup now.", done.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(Number, done.Text, StringComparison.Ordinal);
        var order = Assert.Single(house.Proposals.Erased);
        Assert.Equal(("CD", "DPO", "request 17"), (order.Who, order.OrderedBy, order.Reason));
        Assert.Equal(HttpStatusCode.NotFound, (await second.GetAsync(page)).Status);
    }

    [Fact]
    public async Task Whoever_proposed_it_is_offered_no_confirmation_and_a_made_up_one_is_refused()
    {
        var (first, _) = await TwoAsync();
        var page = await ProposedAsync(first);
        var shown = await first.GetAsync(page);
        Assert.Contains("another administrator has to confirm it", shown.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("confirm-erasure", shown.Text, StringComparison.Ordinal);
        await first.SendAgainAsync(page, "confirm-erasure", ("number", Number), ("mine", Good));
        Assert.Empty(house.Proposals.Erased);
    }

    [Theory]
    [InlineData("Q-1002", Good, "Not by you, or not this number.")]
    [InlineData("", Good, "Type the number as it stands above.")]
    [InlineData(Number, "four grey pilots", "Your own password is wrong")]
    [InlineData(Number, "", "Type your own password as well")]
    public async Task Another_number_or_a_wrong_password_erases_nothing_and_the_password_is_not_shown_again(
        string number,
        string password,
        string words
    )
    {
        var (first, second) = await TwoAsync();
        var page = await ProposedAsync(first);
        var refused = await ConfirmAsync(second, page, number, password);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains(words, WebUtility.HtmlDecode(refused.Text), StringComparison.Ordinal);
        Assert.DoesNotContain(Good, refused.Text, StringComparison.Ordinal);
        Assert.Empty(house.Proposals.Erased);
    }

    [Fact]
    public async Task Guessing_the_password_there_locks_as_at_the_sign_in()
    {
        var (first, second) = await TwoAsync();
        var page = await ProposedAsync(first);
        for (var n = 0; n < 5; n++)
        {
            await ConfirmAsync(second, page, Number, $"four grey pilots {n}");
        }

        Assert.NotNull(house.People.Find("CD")!.LockedUntil);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await ConfirmAsync(second, page, Number, Good)).Status);
        Assert.Empty(house.Proposals.Erased);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Either_withdraws_it_and_a_request_that_only_asks_does_nothing(bool byFirst)
    {
        var (first, second) = await TwoAsync();
        var page = await ProposedAsync(first);
        var browser = byFirst ? first : second;
        foreach (
            var query in (string[])["_handler=withdraw-proposal", $"_handler=confirm-erasure&number={Number}&mine=x"]
        )
        {
            Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync($"{page}?{query}")).Status);
        }

        var done = await browser.SendFormAsync(page, "withdraw-proposal");
        Assert.Equal("/erasing/proposed", done.Location);
        Assert.Contains("It is withdrawn.", (await browser.GetAsync(done.Location!)).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync(page)).Status);
        Assert.Empty(house.Proposals.Erased);
    }

    [Fact]
    public async Task Without_a_form_token_nothing_is_proposed_confirmed_or_withdrawn()
    {
        var (first, second) = await TwoAsync();
        var page = await ProposedAsync(first);
        (string Path, string Form)[] forms =
        [
            ("/erasing/proposed", "propose-erasure"),
            (page, "confirm-erasure"),
            (page, "withdraw-proposal"),
        ];
        foreach (var (path, form) in forms)
        {
            var fields = new Dictionary<string, string>
            {
                ["_handler"] = form,
                ["patient"] = "Q-1002",
                ["ordered"] = "DPO",
                ["reason"] = "x",
                ["number"] = Number,
                ["mine"] = Good,
            };
            var answer = await second.SendAsync(
                new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(fields) }
            );
            Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        }

        Assert.Empty(house.Proposals.Erased);
        Assert.Single(await house.Proposals.ListAsync(default));
    }

    [Fact]
    public async Task What_is_missing_or_refused_stands_there_again_with_all_that_was_typed()
    {
        var (first, _) = await TwoAsync();
        var empty = await first.SendFormAsync("/erasing/proposed", "propose-erasure", ("patient", Number));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, empty.Status);
        Assert.Equal(2, Regex.Count(empty.Text, "class=\"wrong-words\""));
        house.Proposals.Refusal = "Reason and orderer stay readable for ever.";
        var refused = await ProposeAsync(first, "Mr Quill asked");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("stay readable for ever", refused.Text, StringComparison.Ordinal);
        Assert.Contains("Mr Quill asked", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_is_an_administrator_and_an_examiner_cannot_go_round_the_second_person_by_the_web_api()
    {
        await house.AddAsync("AB", ClinicRole.Administrator | ClinicRole.Examiner);
        var browser = await house.SignedInAsync("AB");
        var order = new
        {
            entry = "erasePatient",
            patient = Number,
            orderedBy = "DPO",
            reason = "x",
            entryId = "00112233445566778899aabbccddeeff",
            who = "AB",
            at = "2026-03-02T08:00:00Z",
            programVersion = "1",
        };
        var answer = await browser.PostAsync("/api/v1/entries", order, (await browser.SessionAsync()).Token);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Contains("\"outcome\":\"refused\"", answer.Text, StringComparison.Ordinal);
        Assert.Contains("One person alone", answer.Text, StringComparison.Ordinal);
        house.Clinic.Verify(
            desk => desk.EnterAsync(Moq.It.IsAny<DeskEntry>(), Moq.It.IsAny<CancellationToken>()),
            Moq.Times.Never
        );
    }

    private async Task<(Browser First, Browser Second)> TwoAsync()
    {
        await house.AddAsync("AB", ClinicRole.Administrator);
        await house.AddAsync("CD", ClinicRole.Administrator);
        return (await house.SignedInAsync("AB"), await house.SignedInAsync("CD"));
    }

    /// <summary>Proposes, and gives the proposal's page.</summary>
    private static async Task<string> ProposedAsync(Browser browser)
    {
        var sent = await ProposeAsync(browser, "request 17");
        Assert.Equal("/erasing/proposed", sent.Location);
        var list = await browser.GetAsync(sent.Location!);
        return Regex.Match(list.Text, "href=\"(/erasing/proposed/[0-9a-f]{32})\"").Groups[1].Value;
    }

    private static Task<Answer> ProposeAsync(Browser browser, string reason) =>
        browser.SendFormAsync(
            "/erasing/proposed",
            "propose-erasure",
            ("patient", Number),
            ("ordered", "DPO"),
            ("reason", reason),
            ("entryId", Guid.NewGuid().ToString("N"))
        );

    private static Task<Answer> ConfirmAsync(Browser browser, string page, string number, string password) =>
        browser.SendFormAsync(page, "confirm-erasure", ("number", number), ("mine", password));
}
