using System.Globalization;
using PupilBridge.ExamLog.Tests.Support;

// This assembly is also a program: the writer that KilledWriterTests start and kill, and the measurement that docs/exam-log.md
// quotes.
switch (args)
{
    case ["write", var folder, var seed, var kind]:
        return EndlessWriter.Run(folder, int.Parse(seed, CultureInfo.InvariantCulture), kind == "encrypted");
    case ["measure", var folder]:
        Measurement.Run(folder);
        break;
    case ["measure", var folder, var exams]:
        Measurement.Search(folder, int.Parse(exams, CultureInfo.InvariantCulture));
        break;
    default:
        System.Console.Error.WriteLine("Give 'write FOLDER SEED KIND', 'measure FOLDER' or 'measure FOLDER EXAMS'.");
        return 2;
}

return 0;
