using System.Globalization;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>
/// Applies a seeded stream and says after each stretch how far it has come, until it is killed or the disk takes no more.
/// </summary>
internal static class EndlessWriter
{
    /// <summary>What it ends with when the exam log broke.</summary>
    public const int Broke = 3;

    public static int Run(string folder, int seed, bool encrypt)
    {
        try
        {
            using var store = ExamLogStore.Open(folder, Kind.Options(encrypt) with { CheckpointBytes = 512 * 1024 });
            foreach (var (upTo, changes) in Samples.Stream(seed, 100_000))
            {
                if (store.Apply(upTo, changes))
                {
                    System.Console.Out.WriteLine(upTo.ToString(CultureInfo.InvariantCulture));
                    System.Console.Out.Flush();
                }
            }

            return 0;
        }
        catch (ExamLogBrokenException broken)
        {
            System.Console.Out.WriteLine($"{broken.Trouble}: {broken.Message}");
            return Broke;
        }
    }
}
