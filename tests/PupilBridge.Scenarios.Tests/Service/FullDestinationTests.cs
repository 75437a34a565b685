using PupilBridge.Scenarios.Real;

namespace PupilBridge.Scenarios.Tests.Service;

/// <summary>Backups to a disk that is really full. Where this machine mounts nothing for us it is said, and nothing is claimed.</summary>
public sealed class FullDestinationTests(Xunit.Abstractions.ITestOutputHelper output) : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-full-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task Nothing_half_made_is_taken_for_whole_and_the_next_run_completes_it()
    {
        var result = await FullDestination.RunAsync(folder.FullName, megabytes: 4);
        if (result.WhyNot is { } obstacle)
        {
            output.WriteLine($"Not tried: {obstacle}");
            return;
        }

        Assert.True(result.Problems.Count == 0, string.Join("\n", result.Problems));
        Assert.Equal(4, result.Full);
    }
}
