using System.Globalization;
using PupilBridge.ExamLog;
using PupilBridge.ExamLog.Tests.Support;

// The writer that KilledWriterTests start and kill: it applies a seeded stream and says after each stretch how far it has come.
var store = ExamLogStore.Open(args[0], new ExamLogOptions { CheckpointBytes = 512 * 1024 });
foreach (var (upTo, changes) in Samples.Stream(int.Parse(args[1], CultureInfo.InvariantCulture), 100_000))
{
    if (store.Apply(upTo, changes))
    {
        Console.Out.WriteLine(upTo.ToString(CultureInfo.InvariantCulture));
        Console.Out.Flush();
    }
}
