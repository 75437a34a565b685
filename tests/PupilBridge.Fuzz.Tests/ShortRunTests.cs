using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Tests;

/// <summary>Each target for a short while, from the same seed each time. A long run is a command: docs/reliability.md.</summary>
public sealed class ShortRunTests
{
    public static TheoryData<string> Targets => new(TargetList.All.Select(target => target.Name));

    [Theory]
    [MemberData(nameof(Targets))]
    public void No_input_of_a_short_run_contradicts_an_oracle(string name)
    {
        var info = TargetList.Find(name)!;
        var target = info.Make();
        try
        {
            var result = new FuzzLoop(target, seed: 20_261_128).Run(info.Short);
            Assert.True(result.Failure is null, Told(info, result.Failure));
            Assert.True(result.Units >= info.Short);
            Assert.True(
                result.Behaviours > target.Seeds.Count / 4,
                $"{name} showed {result.Behaviours} ways of behaving."
            );
        }
        finally
        {
            (target as IDisposable)?.Dispose();
        }
    }

    private static string Told(TargetInfo info, Failure? failure) =>
        failure is null
            ? ""
            : $"{info.Name} fails with {Readable.Of(failure.Input)} (base64 {Convert.ToBase64String(failure.Input)}): {failure.Reason}";
}
