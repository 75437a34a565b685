using System.Net;
using System.Text.Json;
using Moq;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.WebApi;

public sealed class AnswerTests : IDisposable
{
    private readonly ApiHouse api = new();

    [Fact]
    public async Task A_list_says_where_its_next_page_is_and_keeps_the_question()
    {
        api.Lists("1770~7", 8, 7);
        using var program = await ReaderAsync();
        using var first = await program.GetAsync("/api/v1/exams?patient=Q-1001&limit=2");
        var link = first.Headers.GetValues("Link").Single();
        Assert.Equal("</api/v1/exams?patient=Q-1001&limit=2&after=1770~7>; rel=\"next\"", link);
        api.Lists(null, 6);
        using var last = await program.GetAsync(link[1..link.IndexOf('>')]);
        Assert.False(last.Headers.Contains("Link"));
        api.House.Clinic.Verify(desk =>
            desk.ListExamsAsync(
                new ExamListRequest
                {
                    Patient = "Q-1001",
                    Limit = 2,
                    After = "1770~7",
                },
                It.IsAny<CancellationToken>()
            )
        );
    }

    [Fact]
    public async Task What_has_not_changed_is_not_sent_again()
    {
        api.Lists(null, 7);
        using var program = await ReaderAsync();
        using var first = await program.GetAsync("/api/v1/exams");
        var tag = first.Headers.ETag!;
        Assert.False(tag.IsWeak);
        program.DefaultRequestHeaders.IfNoneMatch.Add(tag);
        using var same = await program.GetAsync("/api/v1/exams");
        Assert.Equal((HttpStatusCode.NotModified, ""), (same.StatusCode, await same.Content.ReadAsStringAsync()));
        api.Lists(null, 8, 7);
        using var changed = await program.GetAsync("/api/v1/exams");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.NotEqual(tag, changed.Headers.ETag);
    }

    [Theory]
    [InlineData("GET", "/api/v1/exams/4711", 404)]
    [InlineData("GET", "/api/v1/exams/4711/record?version=3", 404)]
    [InlineData("GET", "/api/v1/exams/4711/exports/nothing", 404)]
    [InlineData("GET", "/api/v1/nothing", 404)]
    [InlineData("GET", "/api/v1/exams/first", 404)]
    [InlineData("GET", "/api/v1/tables/nothing", 404)]
    [InlineData("DELETE", "/api/v1/exams", 405)]
    [InlineData("GET", "/api/v1/exams?limit=0", 422)]
    [InlineData("GET", "/api/v1/exams?limit=501", 422)]
    [InlineData("GET", "/api/v1/tables/exams?format=xls", 422)]
    [InlineData("GET", "/api/v1/exams?limit=many", 400)]
    [InlineData("GET", "/api/v1/patients", 403)]
    [InlineData("POST", "/api/v1/entries", 400)]
    public async Task Every_refusal_is_a_problem_with_words(string method, string path, int status)
    {
        api.House.Clinic.Setup(desk => desk.ShowExamAsync(4711, It.IsAny<CancellationToken>()))
            .ReturnsAsync((ExamView?)null);
        using var program = await ReaderAsync();
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        if (method == "POST")
        {
            request.Content = ApiHouse.Json("{}");
        }

        using var answer = await program.SendAsync(request);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        Assert.Equal(status, problem.RootElement.GetProperty("status").GetInt32());
        Assert.NotEmpty(problem.RootElement.GetProperty("title").GetString()!);
        Assert.NotEmpty(problem.RootElement.GetProperty("detail").GetString()!);
    }

    [Theory]
    [InlineData("text/plain", "{}", 415)]
    [InlineData("application/json", "", 400)]
    [InlineData("application/json", "[]", 400)]
    [InlineData("application/json", "{\"entry\":\"none\"}", 400)]
    [InlineData("application/json", "{\"entry\":\"patient\",\"who\":\"registry (key)\"}", 400)]
    [InlineData(
        "application/json",
        "{\"entry\":\"patient\",\"patient\":7,\"entryId\":\"x\",\"who\":\"a\",\"at\":\"b\",\"programVersion\":\"c\"}",
        400
    )]
    public async Task What_is_no_entry_is_explained_without_a_type_of_the_program(string type, string body, int status)
    {
        using var program = await ReaderAsync();
        using var content = new StringContent(body, System.Text.Encoding.UTF8, type);
        using var answer = await program.PostAsync("/api/v1/entries", content);
        var words = await answer.Content.ReadAsStringAsync();
        Assert.Equal(
            (status, "application/problem+json"),
            ((int)answer.StatusCode, answer.Content.Headers.ContentType?.MediaType)
        );
        Assert.DoesNotContain("PupilBridge.", words, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_entry_too_long_is_refused_before_it_is_read()
    {
        using var program = await ReaderAsync();
        using var answer = await program.PostAsync("/api/v1/entries", ApiHouse.Json(new string(' ', 300 * 1024)));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task The_document_is_OpenAPI_3_1_and_names_every_route_of_the_web_API()
    {
        using var client = api.House.Client();
        using var document = JsonDocument.Parse(await client.GetStringAsync("/api/v1/openapi.json"));
        Assert.StartsWith("3.1", document.RootElement.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        var paths = document.RootElement.GetProperty("paths").EnumerateObject().Select(path => path.Name).ToList();
        string[] needed =
        [
            "/api/v1/exams",
            "/api/v1/exams/{exam}",
            "/api/v1/exams/{exam}/record",
            "/api/v1/exams/{exam}/exports/fhir",
            "/api/v1/exams/{exam}/exports/report-pdf",
            "/api/v1/patients",
            "/api/v1/instruments",
            "/api/v1/events",
            "/api/v1/entries",
            "/api/v1/tables/{table}",
        ];
        Assert.Empty(needed.Except(paths));
        Assert.All(paths, path => Assert.StartsWith("/api/v1/", path, StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_readable_page_lists_every_path_of_the_document_and_asks_nothing_from_outside()
    {
        using var client = api.House.Client();
        using var answer = await client.GetAsync("/api/v1");
        var page = await answer.Content.ReadAsStringAsync();
        using var document = JsonDocument.Parse(await client.GetStringAsync("/api/v1/openapi.json"));
        Assert.All(
            document.RootElement.GetProperty("paths").EnumerateObject(),
            path => Assert.Contains(path.Name.Split('{')[0], page, StringComparison.Ordinal)
        );
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("style=", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("://", page, StringComparison.Ordinal);
        Assert.Contains(
            "default-src 'none'",
            answer.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
    }

    public void Dispose() => api.Dispose();

    private async Task<HttpClient> ReaderAsync() => api.With(await api.KeyAsync($"reader", "records", "lane"));
}
