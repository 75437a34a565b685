using System.Net;
using System.Text.Json;
using Moq;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.Tests.WebApi;

public sealed class KeyTests : IDisposable
{
    private readonly ApiHouse api = new();

    [Fact]
    public async Task A_key_opens_what_its_scopes_name_and_nothing_else()
    {
        api.Lists(null, 7);
        // What each route needs, written here by hand.
        Dictionary<string, string> routes = new()
        {
            ["/api/v1/exams"] = "records",
            ["/api/v1/exams/1"] = "records",
            ["/api/v1/exams/1/record"] = "records",
            ["/api/v1/exams/1/chart"] = "records",
            ["/api/v1/exams/1/exports"] = "records",
            ["/api/v1/exams/1/exports/fhir"] = "records",
            ["/api/v1/exams/1/exports/hl7"] = "records",
            ["/api/v1/exams/1/exports/report-pdf"] = "records",
            ["/api/v1/exams/1/exports/nothing"] = "records",
            ["/api/v1/tables/exams"] = "records",
            ["/api/v1/patients"] = "patients",
            ["/api/v1/patients/Q-1001"] = "patients",
            ["/api/v1/patients/Q-1001/visits"] = "records",
            ["/api/v1/day-list"] = "patients",
            ["/api/v1/instruments"] = "instruments",
            ["/api/v1/lanes"] = "instruments",
            ["/api/v1/lanes/8F3A"] = "lane",
            ["/api/v1/lanes/8F3A/events"] = "lane",
            ["/api/v1/events"] = "lane",
        };
        foreach (var scope in KeyScopes.All)
        {
            using var program = api.With(await api.KeyAsync($"only {scope}", scope));
            foreach (var (route, needs) in routes)
            {
                using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(20));
                using var answer = await program.GetAsync(route, HttpCompletionOption.ResponseHeadersRead, stop.Token);
                Assert.True(
                    scope == needs != (answer.StatusCode is HttpStatusCode.Forbidden or HttpStatusCode.Unauthorized),
                    $"{route} with {scope}: {answer.StatusCode}"
                );
            }
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("pbk_000000000000_00")]
    [InlineData("nonsense")]
    public async Task Without_a_right_key_every_answer_is_a_401_problem_that_asks_for_one(string? key)
    {
        using var program = api.With(key);
        using var answer = await program.GetAsync("/api/v1/exams");
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("Bearer", answer.Headers.WwwAuthenticate.Single().Scheme);
    }

    [Fact]
    public async Task A_revoked_key_opens_nothing_and_its_name_is_never_used_again()
    {
        api.Lists(null, 7);
        using var program = api.With(await api.KeyAsync("registry", "records"));
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync("/api/v1/exams")).StatusCode);
        Assert.True((await api.House.People.RevokeKeyAsync(ApiHouse.Administrator, "Registry", default)).Done);
        Assert.Equal(HttpStatusCode.Unauthorized, (await program.GetAsync("/api/v1/exams")).StatusCode);
        Assert.False(
            (await api.House.People.AddKeyAsync(ApiHouse.Administrator, "registry", ["records"], default)).Done
        );
        Assert.False((await api.House.People.RevokeKeyAsync(ApiHouse.Administrator, "registry", default)).Done);
    }

    [Fact]
    public async Task Only_an_administrator_makes_keys_and_none_that_signs()
    {
        var clinician = new Caller("DR", ClinicRole.Clinician);
        Assert.False((await api.House.People.AddKeyAsync(clinician, "a", ["records"], default)).Done);
        Assert.False((await api.House.People.AddKeyAsync(ApiHouse.Administrator, "a", ["sign"], default)).Done);
        Assert.False((await api.House.People.AddKeyAsync(ApiHouse.Administrator, "a", [], default)).Done);
        Assert.False(
            (await api.House.People.AddKeyAsync(ApiHouse.Administrator, "a (key)", ["records"], default)).Done
        );
        Assert.Empty(api.House.People.ListKeys());
    }

    [Fact]
    public async Task The_file_keeps_a_hash_and_not_the_key()
    {
        var key = await api.KeyAsync("registry", "records");
        var file = await File.ReadAllTextAsync(Path.Combine(api.House.Folder, "access.json"));
        Assert.DoesNotContain(key.Split('_')[2], file, StringComparison.Ordinal);
        Assert.Contains("registry", file, StringComparison.Ordinal);
        Assert.Equal(64, key.Split('_')[2].Length);
    }

    [Fact]
    public async Task A_program_enters_under_its_own_name_without_a_form_token_and_never_under_another()
    {
        using var program = api.With(await api.KeyAsync("registry", "patients"));
        using var own = await program.PostAsync("/api/v1/entries", ApiHouse.Json(Patient("registry (key)")));
        Assert.Equal("recorded", await OutcomeAsync(own));
        using var other = await program.PostAsync("/api/v1/entries", ApiHouse.Json(Patient("MK")));
        Assert.Equal("refused", await OutcomeAsync(other));
        api.House.Clinic.Verify(
            desk => desk.EnterAsync(It.Is<DeskEntry>(e => e.Who == "registry (key)"), It.IsAny<CancellationToken>()),
            Times.Once
        );
        api.House.Clinic.Verify(
            desk => desk.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()),
            Times.Once
        );
    }

    [Fact]
    public async Task A_key_opens_no_page()
    {
        using var program = api.With(await api.KeyAsync("registry", [.. KeyScopes.All]));
        foreach (var page in (string[])["/exams", "/account", "/people", "/"])
        {
            Assert.Equal(HttpStatusCode.Redirect, (await program.GetAsync(page)).StatusCode);
        }
    }

    public void Dispose() => api.Dispose();

    // The kind stands last: members may come in any order.
    private static string Patient(string who) =>
        $$"""
            {"patient":"Q-2001","name":null,"birthDate":null,"entryId":"00112233445566778899aabbccddeeff","who":"{{who}}",
            "at":"2026-03-02T08:00:00Z","programVersion":"1.0","entry":"patient"}
            """;

    private static async Task<string?> OutcomeAsync(HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        using var json = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        return json.RootElement.GetProperty("outcome").GetString();
    }
}
