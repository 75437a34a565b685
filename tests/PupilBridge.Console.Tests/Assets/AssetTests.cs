using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Console.Tests.Hosting;

namespace PupilBridge.Console.Tests.Assets;

public sealed partial class AssetTests : IDisposable
{
    private readonly ConsoleInProcess console = new();

    [Fact]
    public async Task A_style_sheet_comes_out_of_the_assembly_and_is_asked_for_once()
    {
        using var first = await console.Browser.GetAsync(new Uri("/assets/css/face.css", UriKind.Relative));
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
        Assert.Equal("text/css", first.Content.Headers.ContentType?.MediaType);
        using var again = new HttpRequestMessage(HttpMethod.Get, "/assets/css/face.css");
        again.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using var second = await console.Browser.SendAsync(again);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
    }

    [Theory]
    [InlineData("pages", 11)]
    [InlineData("lane", 8)]
    public async Task A_style_sheet_in_pieces_names_pieces_that_are_served(string sheet, int pieces)
    {
        var whole = await console.Browser.GetStringAsync(new Uri($"/assets/css/{sheet}.css", UriKind.Relative));
        var named = Piece().Matches(whole).Select(match => match.Groups[1].Value).ToList();
        Assert.Equal(pieces, named.Distinct().Count());
        foreach (var piece in named)
        {
            using var answer = await console.Browser.GetAsync(new Uri($"/assets/css/{piece}", UriKind.Relative));
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }
    }

    [Theory]
    [InlineData("/assets/css/none.css")]
    [InlineData("/assets/../pupilbridge.json")]
    [InlineData("/assets/%2e%2e/%2e%2e/etc/passwd")]
    public async Task Nothing_else_is_served(string path)
    {
        using var answer = await console.Browser.GetAsync(new Uri(path, UriKind.Relative));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    public void Dispose() => console.Dispose();

    [GeneratedRegex("@import url\\(\"(.*?)\"\\);")]
    private static partial Regex Piece();
}
