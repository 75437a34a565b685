using PupilBridge.Scenarios.Service;
using Xunit.Abstractions;

namespace PupilBridge.Scenarios.Tests.Service;

/// <summary>The real service, killed without a word while an exam runs over a pseudo-terminal.</summary>
public sealed class KillStormTests(ITestOutputHelper output) : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-kill-").FullName;

    [Fact]
    public async Task After_50_kills_nothing_acknowledged_is_missing_and_nothing_is_double()
    {
        var result = await KillStorm.RunAsync(folder, kills: 50, seed: 20261, pace: 4);
        output.WriteLine($"{result}\n{string.Join("\n", result.Audit.Problems)}");
        Assert.True(result.CameToRest, "not everything was acknowledged in the end");
        Assert.Empty(result.Audit.Problems);
        Assert.Equal((0, 0, 0), (result.Audit.Lost, result.Audit.Doubled, result.Audit.False));
        Assert.True(result.JournalIsSound, result.VerifySummary);
        Assert.True(
            result.KillsAfterRecording >= 25,
            $"only {result.KillsAfterRecording} kills fell while events flowed"
        );
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
