using PupilBridge.Browser.Storms;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The service is killed again and again while an examiner works. The long run is a part of PupilBridge.Measure.</summary>
public sealed class ConsoleKillStormTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>
{
    [Fact]
    public async Task Whenever_it_is_killed_what_was_typed_stands_once_in_the_record_and_the_page_goes_on_by_itself()
    {
        var folder = Directory.CreateTempSubdirectory("pb-storm-").FullName;
        try
        {
            var result = await ConsoleKillStorm.RunAsync(fixture.Chromium, folder, kills: 5, seed: 20262);
            output.WriteLine($"{result}");
            Assert.Empty(result.Problems);
            Assert.Equal(5, result.Kills);
            Assert.InRange(result.Judgements, 6 * result.Exams, int.MaxValue);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
