using System.Net;
using System.Text.Json;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.LaneApi;

public sealed class LaneApiTests : IAsyncDisposable
{
    private const string Grade = """
        {"entry":"judgement","entryId":"0000000000000000000000000000000a","who":"MK","at":"2026-03-02T08:00:00Z",
         "programVersion":"0.1.0","exam":7,"judgement":"direct OD 3","stepSeen":"direct","stimulusSeen":31}
        """;

    private readonly ApiInProcess api = new();

    [Theory]
    [InlineData("GET", "/api/v1/lanes")]
    [InlineData("GET", "/api/v1/lanes/QA-0001")]
    [InlineData("GET", "/api/v1/lanes/QA-0001/events")]
    [InlineData("GET", "/api/v1/patients?find=Q")]
    [InlineData("GET", "/api/v1/day-list")]
    [InlineData("POST", "/api/v1/entries")]
    [InlineData("POST", "/api/v1/lanes/QA-0001/switch-off")]
    public async Task Whoever_is_not_signed_in_is_told_so_in_words_and_gets_nothing(string method, string path)
    {
        using var answer = await api.Browser.SendAsync(new HttpRequestMessage(new HttpMethod(method), path));

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        var problem = await ProblemAsync(answer);
        Assert.Equal("Nobody is signed in", problem.GetProperty("title").GetString());
        Assert.Contains("Sign in again", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        api.Clinic.VerifyNoOtherCalls();
        api.Lanes.VerifyNoOtherCalls();
    }

    [Fact]
    public async Task The_chooser_lists_the_instruments()
    {
        var list = new InstrumentList(true, [], [new LineView("memory:1", "live", "", "QA-0001")], null);
        api.Clinic.Setup(desk => desk.ListInstrumentsAsync(It.IsAny<CancellationToken>())).ReturnsAsync(list);

        var json = await api.As("TT", "technician").Browser.GetStringAsync("/api/v1/lanes");

        Assert.Equal(JsonSerializer.Serialize(list, ClinicJson.Default.InstrumentList), json);
    }

    [Fact]
    public async Task A_lane_is_its_board_and_one_that_nobody_knows_is_told_in_words()
    {
        var board = SomeBoards.At(4_000);
        api.Lanes.Setup(desk => desk.LookAtLaneAsync("QA-0001", It.IsAny<CancellationToken>())).ReturnsAsync(board);
        api.As("MK", "examiner");

        var json = await api.Browser.GetStringAsync("/api/v1/lanes/QA-0001");
        using var unknown = await api.Browser.GetAsync("/api/v1/lanes/QA-0009");

        Assert.Equal(JsonSerializer.Serialize(board, ClinicJson.Default.LaneBoard), json);
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        Assert.Contains(
            "No instrument QA-0009",
            (await ProblemAsync(unknown)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("technician")]
    [InlineData("administrator")]
    public async Task A_role_without_patients_sees_no_lane(string role)
    {
        using var answer = await api.As("TT", role).Browser.GetAsync("/api/v1/lanes/QA-0001");

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains(
            "examiner",
            (await ProblemAsync(answer)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        api.Lanes.VerifyNoOtherCalls();
    }

    [Fact]
    public async Task An_entry_is_recorded_and_its_outcome_told_also_when_it_is_a_refusal()
    {
        await api.As("MK", "examiner").WithTokenAsync();
        var seen = new List<DeskEntry>();
        api.Clinic.SetupSequence(desk => desk.EnterAsync(Capture.In(seen), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(12, 7))
            .ReturnsAsync(new EntryOutcome.Refused("It does not count.", "Run the block."));

        using var first = await api.PostAsync("/api/v1/entries", Grade);
        using var second = await api.PostAsync("/api/v1/entries", Grade);

        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (first.StatusCode, second.StatusCode));
        Assert.Equal("""{"outcome":"recorded","notice":null,"sequence":12,"exam":7}""", await SortedAsync(first));
        Assert.Contains("\"refused\"", await second.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var entry = Assert.IsType<JudgementEntry>(seen[0]);
        Assert.Equal(
            ("MK", 7, "direct OD 3", "direct", 31),
            (entry.Who, entry.Exam, entry.Judgement, entry.StepSeen, entry.StimulusSeen)
        );
    }

    [Fact]
    public async Task An_entry_under_another_name_or_without_the_role_is_refused_as_an_outcome()
    {
        await api.As("MK", "examiner").WithTokenAsync();
        using var other = await api.PostAsync("/api/v1/entries", Grade.Replace("MK", "XX", StringComparison.Ordinal));
        api.As("TT", "technician");
        await api.WithTokenAsync();
        using var technician = await api.PostAsync(
            "/api/v1/entries",
            Grade.Replace("MK", "TT", StringComparison.Ordinal)
        );

        foreach (var answer in new[] { other, technician })
        {
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Contains("\"refused\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        api.Clinic.Verify(desk => desk.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()), Times.Never);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"entry":"nothing-known"}""")]
    [InlineData("""{"entry":"makeReady","entryId":"0a"}""")]
    [InlineData("""{"entry":"makeReady","entryId":"0a","who":"MK","at":"yesterday","programVersion":"1","exam":7}""")]
    public async Task What_is_no_entry_is_told_in_words_and_recorded_nowhere(string body)
    {
        await api.As("MK", "examiner").WithTokenAsync();

        using var answer = await api.PostAsync("/api/v1/entries", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var problem = await ProblemAsync(answer);
        Assert.Equal(400, problem.GetProperty("status").GetInt32());
        Assert.Contains("enter it again", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        api.Clinic.VerifyNoOtherCalls();
    }

    [Fact]
    public async Task What_is_not_json_or_too_large_is_told_in_words()
    {
        await api.As("MK", "examiner").WithTokenAsync();

        using var form = await api.PostAsync("/api/v1/entries", "a=b", "application/x-www-form-urlencoded");
        using var large = await api.PostAsync("/api/v1/entries", new string(' ', 300_000));

        Assert.Equal(HttpStatusCode.UnsupportedMediaType, form.StatusCode);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, large.StatusCode);
        Assert.Contains(
            "Shorten it",
            (await ProblemAsync(large)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("/api/v1/entries")]
    [InlineData("/api/v1/lanes/QA-0001/switch-off")]
    public async Task Without_the_token_of_a_page_nothing_is_changed_and_the_script_learns_that_it_needs_a_new_one(
        string path
    )
    {
        api.As("MK", "examiner");

        using var answer = await api.PostAsync(path, Grade);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Empty(await answer.Content.ReadAsStringAsync());
        api.Clinic.VerifyNoOtherCalls();
        api.Lanes.VerifyNoOtherCalls();
    }

    [Fact]
    public async Task Switching_off_is_asked_for_in_the_callers_name()
    {
        await api.As("TT", "technician").WithTokenAsync();
        api.Lanes.Setup(desk => desk.SwitchOffAsync("QA-0001", "TT", It.IsAny<CancellationToken>()))
            .ReturnsAsync(new SwitchOffOutcome(true, "QA-0001 is switching itself off."));

        using var answer = await api.PostAsync("/api/v1/lanes/QA-0001/switch-off", "{}");

        Assert.Equal(
            """{"done":true,"words":"QA-0001 is switching itself off."}""",
            await answer.Content.ReadAsStringAsync()
        );
    }

    [Fact]
    public async Task Patients_and_the_days_list_are_offered()
    {
        var patient = new PatientView("Q-1001", "A. Pilot", new DateOnly(1980, 5, 6));
        api.Records.Setup(desk => desk.FindPatientsAsync("Q-1", null, 12, It.IsAny<CancellationToken>()))
            .ReturnsAsync(new PatientList([patient], null));
        api.Records.Setup(desk => desk.DayListAsync(It.IsAny<DateOnly>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(
                (DateOnly day, CancellationToken _) =>
                    new DayListView(day, [new DayListItemView(patient, "09:30", null)])
            );
        api.As("MK", "examiner");

        var found = await api.Browser.GetStringAsync("/api/v1/patients?find=Q-1");
        var list = await api.Browser.GetStringAsync("/api/v1/day-list");

        Assert.Contains("\"Q-1001\"", found, StringComparison.Ordinal);
        Assert.Contains(
            """{"patient":"Q-1001","name":"A. Pilot","birthDate":"1980-05-06","time":"09:30","exam":null}""",
            list,
            StringComparison.Ordinal
        );
    }

    public ValueTask DisposeAsync() => api.DisposeAsync();

    private static async Task<JsonElement> ProblemAsync(HttpResponseMessage answer)
    {
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        return JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
    }

    /// <summary>The members in a fixed order: which one is written first is no promise.</summary>
    private static async Task<string> SortedAsync(HttpResponseMessage answer)
    {
        var members = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
        string[] order = ["outcome", "notice", "sequence", "exam"];
        Assert.Equal(order.Length, members.EnumerateObject().Count());
        return $"{{{string.Join(',', order.Select(name => $"\"{name}\":{members.GetProperty(name).GetRawText()}"))}}}";
    }
}
