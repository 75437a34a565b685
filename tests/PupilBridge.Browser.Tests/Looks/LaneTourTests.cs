using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Pixels;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Looks;

/// <summary>The lane does not light up a darkened room, and can be read all the same; both measured from pixels in every state.</summary>
public sealed class LaneTourTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>,
        IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-tour-").FullName;

    [Fact]
    public async Task Every_state_of_the_lane_is_dim_and_all_its_text_stands_out()
    {
        var (looks, problems) = await LaneTour.RunAsync(fixture.Chromium, folder);
        foreach (var look in looks)
            output.WriteLine(
                $"{look.State}: mean {look.Light.Mean:F4}, bright {look.Light.BrightShare:P3}, {look.Texts} texts"
            );
        Assert.True(looks.Count >= 15, $"only {looks.Count} states were seen");
        Assert.All(looks, look => Assert.InRange(look.Light.Mean, 0, PixelLight.DimMean));
        Assert.All(looks, look => Assert.InRange(look.Light.BrightShare, 0, PixelLight.DimBrightShare));
        Assert.All(looks, look => Assert.InRange(look.Texts, 5, 1_000));
        var weak = looks.SelectMany(look => look.Weak.Select(w => $"{look.State}: {w}")).ToArray();
        Assert.True(weak.Length == 0, string.Join("\n", weak));
        Assert.Empty(problems);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
