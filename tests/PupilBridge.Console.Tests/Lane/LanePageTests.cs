using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Lane;
using PupilBridge.Console.Tests.Hosting;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Lane;

public sealed partial class LanePageTests : IDisposable
{
    private readonly ConsoleInProcess console = new(services: SignedInForTests.Add);

    public LanePageTests()
    {
        console.Browser.DefaultRequestHeaders.Add(SignedInForTests.Who, "AB");
        console.Browser.DefaultRequestHeaders.Add(SignedInForTests.Roles, nameof(ClinicRole.Examiner));
    }

    public void Dispose() => console.Dispose();

    [Fact]
    public async Task The_page_brings_its_words_and_what_the_script_must_know()
    {
        var page = await console.Browser.GetStringAsync(new Uri("/lane/QA-0001", UriKind.Relative));
        var words = Block(page, "words");
        var lane = Block(page, "lane-data");

        Assert.Equal(LaneWords.All.Keys.Count, words.EnumerateObject().Count());
        Assert.Equal("QA-0001", lane.GetProperty("instrument").GetString());
        Assert.Equal("0.0-test", lane.GetProperty("programVersion").GetString());
        Assert.Equal("AB", lane.GetProperty("who").GetString());
        Assert.NotEmpty(lane.GetProperty("formToken").GetString()!);
    }

    [Theory]
    [InlineData(nameof(ClinicRole.Technician), HttpStatusCode.Forbidden)]
    [InlineData(nameof(ClinicRole.Clinician), HttpStatusCode.OK)]
    public async Task Only_examiners_and_clinicians_come_to_a_lane(string role, HttpStatusCode status)
    {
        console.Browser.DefaultRequestHeaders.Remove(SignedInForTests.Roles);
        console.Browser.DefaultRequestHeaders.Add(SignedInForTests.Roles, role);
        using var answer = await console.Browser.GetAsync(new Uri("/lane/QA-0001", UriKind.Relative));

        Assert.Equal(status, answer.StatusCode);
    }

    [Fact]
    public async Task A_serial_number_with_signs_of_HTML_in_it_stays_text()
    {
        const string serial = "<b>\"&<!--<script>";
        var path = new Uri($"/lane/{Uri.EscapeDataString(serial)}", UriKind.Relative);
        var page = await console.Browser.GetStringAsync(path);

        Assert.DoesNotContain("<b>", page, StringComparison.Ordinal);
        Assert.Equal(serial, Block(page, "lane-data").GetProperty("instrument").GetString());
    }

    [Theory]
    [InlineData("/lane/QA-0001")]
    [InlineData("/lane-keys")]
    public async Task No_script_and_no_style_stands_in_the_page_itself(string path)
    {
        var page = await console.Browser.GetStringAsync(new Uri(path, UriKind.Relative));

        Assert.DoesNotMatch(@"<[^>]+\s(style|on\w+)=", page);
        Assert.DoesNotContain("<style", page, StringComparison.OrdinalIgnoreCase);
        Assert.All(
            Scripts().Matches(page),
            script => Assert.Matches(@"type=""application/json""|src=""/assets/lane/", script.Value)
        );
    }

    [Theory]
    [InlineData("other=1", "dark")]
    [InlineData("face=light", "dark")]
    [InlineData("lane-face=light", "light")]
    public async Task The_lane_is_dark_unless_light_was_chosen_for_the_lane(string cookie, string face)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/lane/QA-0001");
        request.Headers.Add("Cookie", cookie);
        using var answer = await console.Browser.SendAsync(request);

        Assert.Contains($"data-face=\"{face}\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_word_that_the_script_says_is_in_the_resource_file()
    {
        var scripts = Directory
            .GetFiles(Path.Combine(AppContext.BaseDirectory, "lane"), "*.js")
            .Select(File.ReadAllText);
        var said = scripts.SelectMany(Said).ToHashSet(StringComparer.Ordinal);

        Assert.True(said.Count > 60, $"Only {said.Count} words were found in the scripts.");
        Assert.Empty(said.Except(LaneWords.All.Keys));
    }

    /// <summary>The words that are named as a whole, and those of the keys, which are named without their group.</summary>
    private static IEnumerable<string> Said(string script) =>
        Named()
            .Matches(script)
            .Select(match => match.Groups[1].Value)
            .Concat(Refused().Matches(script).Select(match => $"Key.{match.Groups[1].Value}{match.Groups[2].Value}"));

    private static JsonElement Block(string page, string id)
    {
        var match = Regex.Match(
            page,
            $"<script type=\"application/json\" id=\"{id}\">(.*?)</script>",
            RegexOptions.Singleline
        );
        return JsonDocument.Parse(match.Groups[1].Value).RootElement;
    }

    [GeneratedRegex("<script[^>]*>")]
    private static partial Regex Scripts();

    [GeneratedRegex("""say\("([A-Z]\w*\.[\w.-]+)"[,)]""")]
    private static partial Regex Named();

    [GeneratedRegex("""refuse\(state, effects, "(\w+)"|word: "((?!key)\w+)", (?:args|list|kind)""")]
    private static partial Regex Refused();
}
