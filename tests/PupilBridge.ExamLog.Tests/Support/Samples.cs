using System.Globalization;
using System.Text;
using PupilBridge.Exams.Values;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>Documents of a made-up clinic, the same for the same number.</summary>
internal static class Samples
{
    public static readonly string[] Statuses = ["open", "ready", "signed", "amended", "setAside"];

    public static readonly string[] FirstNames = ["Anna", "Bertil", "Céline", "Dev", "Ève", "Femke", "Göran"];

    public static readonly string[] LastNames =
    [
        "Anders",
        "Bakker",
        "de Vries",
        "O'Neill",
        "Ångström",
        "Annas Berg",
        "Dahl",
        "Jansen",
        "Öz",
    ];

    public static readonly string[] Examiners = ["MK", "mk", "AB", "Jo"];

    public static readonly string[] Findings = ["anisocoria", "gap", "not-round", "poor-direct"];

    /// <summary>A Monday morning at the quay.</summary>
    public static readonly DateTimeOffset Start = new(2026, 3, 2, 7, 30, 0, TimeSpan.Zero);

    public static StoredExam Exam(int number, int version = 1, int bodyBytes = 300)
    {
        var dice = new Random((number * 31) + version);
        return new StoredExam
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"E-{number:D6}"),
            PatientId = number % 7 == 0 ? null : Patient(number % 40).Id,
            // Several exams share a time of opening, as two lanes do.
            OpenedAt = Start.AddMinutes(number / 3 * 7),
            Status = Statuses[(number + version) % Statuses.Length],
            Instrument = number % 2 == 0 ? "QA-0001" : "QB-0002",
            Examiner = number % 5 == 0 ? null : Examiners[number % Examiners.Length],
            Findings = FindingsOf(number + version),
            Review = (ReviewTurn)((number + version) % 4 % 3),
            ChartLine = $"exam {number} version {version}",
            Body = Bytes(dice, bodyBytes),
        };
    }

    /// <summary>One exam of a clinic that has worked for years: 40 a day, ten examiners, most of them signed.</summary>
    public static StoredExam OneOfMany(int number) =>
        Exam(number, bodyBytes: 200) with
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"{1000 + (number * 60L)}"),
            PatientId = Patient(number / 4 * 7919 % 250_000).Id,
            OpenedAt = Start.AddDays(number / 40).AddMinutes(number % 40 * 12),
            Examiner = $"M{number % 10}",
            Status = number % 2 == 1 ? "signed" : (number % 200 == 0 ? "ready-for-review" : "amended"),
            Findings = number % 50 == 7 ? ["not-round"] : (number % 50 == 9 ? ["anisocoria", "before-drops"] : []),
            Review =
                number % 200 != 0 ? ReviewTurn.NotWaiting
                : number % 1000 == 0 ? ReviewTurn.First
                : ReviewTurn.Waiting,
        };

    public static StoredPatient Patient(int number, int version = 1) =>
        new()
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"Q-{1001 + number}"),
            Name = version % 5 == 4 ? "" : $"{FirstNames[number % 7]} {LastNames[number * version % 9]}",
            Body = Encoding.UTF8.GetBytes($"{{\"number\":{number},\"version\":{version}}}"),
        };

    public static StoredInstrument Instrument(int number, int version = 1) =>
        new() { Id = $"QA-{number:D4}", Body = Encoding.UTF8.GetBytes($"firmware {version}") };

    /// <summary>A signed version on its way, which goes from list to list as versions rise.</summary>
    public static StoredOutboxItem OutboxItem(int number, int version) =>
        new()
        {
            Id = $"{number}-1",
            List = (OutboxList)(1 + (version % 3)),
            Sequence = 100 + number,
            Body = new byte[] { (byte)number, (byte)version },
        };

    /// <summary>What a stretch of a journal might change: new exams, and some older ones again.</summary>
    public static IEnumerable<(long UpTo, ExamLogChanges Changes)> Stream(int seed, int stretches, int examsEach = 3)
    {
        var dice = new Random(seed);
        var upTo = 0L;
        var known = 0;
        for (var stretch = 0; stretch < stretches; stretch++)
        {
            upTo += dice.Next(1, 9);
            var exams = new Dictionary<int, StoredExam>();
            for (var i = 0; i < examsEach; i++)
            {
                var isOld = known > 0 && dice.Next(3) == 0;
                var number = isOld ? dice.Next(known) : known++;
                exams[number] = Exam(number, version: stretch + 1, bodyBytes: dice.Next(50, 3000));
            }

            yield return (
                upTo,
                new ExamLogChanges
                {
                    Exams = exams.Values.ToList(),
                    Patients = [Patient(dice.Next(40), stretch)],
                    Instruments = stretch % 4 == 0 ? [Instrument(1 + dice.Next(2), stretch)] : [],
                    LookUps = [new StoredLookUp { List = "examiners", Key = $"M{(char)('A' + dice.Next(20))}" }],
                    Outbox = [OutboxItem(dice.Next(30), stretch)],
                    Carry = Bytes(dice, dice.Next(0, 500)),
                }
            );
        }
    }

    /// <summary>None for most numbers; common ones and rare ones, alone and together.</summary>
    private static ValueList<string> FindingsOf(int number) =>
        [.. Findings.Where((_, at) => number % (at == 0 ? 3 : 11 + (at * 12)) == 0)];

    private static byte[] Bytes(Random dice, int count)
    {
        var bytes = new byte[count];
        dice.NextBytes(bytes);
        return bytes;
    }
}
