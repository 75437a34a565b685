using System.Globalization;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>Applies a seeded stream and says after each stretch how far it has come, until it is killed.</summary>
internal static class EndlessWriter
{
    public static void Run(string folder, int seed)
    {
        using var store = ExamLogStore.Open(folder, new ExamLogOptions { CheckpointBytes = 512 * 1024 });
        foreach (var (upTo, changes) in Samples.Stream(seed, 100_000))
        {
            if (store.Apply(upTo, changes))
            {
                Console.Out.WriteLine(upTo.ToString(CultureInfo.InvariantCulture));
                Console.Out.Flush();
            }
        }
    }
}
