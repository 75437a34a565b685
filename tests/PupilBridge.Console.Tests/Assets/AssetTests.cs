using System.Net;
using PupilBridge.Console.Tests.Hosting;

namespace PupilBridge.Console.Tests.Assets;

public sealed class AssetTests : IDisposable
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
    [InlineData("/assets/css/none.css")]
    [InlineData("/assets/../pupilbridge.json")]
    [InlineData("/assets/%2e%2e/%2e%2e/etc/passwd")]
    public async Task Nothing_else_is_served(string path)
    {
        using var answer = await console.Browser.GetAsync(new Uri(path, UriKind.Relative));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    public void Dispose() => console.Dispose();
}
