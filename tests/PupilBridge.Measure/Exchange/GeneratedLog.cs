using PupilBridge.Constructed;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Measure.Exchange;

/// <summary>
/// An exam log as years of exams leave it: a few constructed exams over and over, each under its own number, patient and
/// time, each signed with its own record.
/// </summary>
internal static class GeneratedLog
{
    private const int Batch = 500;
    private const int VisitsOfAPatient = 4;

    /// <summary>Exams in the words of docs/criteria.md: whole ones, with and without findings, and partial ones.</summary>
    private static readonly string[] Kinds =
    [
        "nothing",
        "near 3/3; consensual 3/3",
        "bright 4.00/3.20; dim 6.00/5.20",
        "short R; long R; direct 2/3",
        "status drops/none; direct 1/3; near 3/3",
        "dim -/-; short -; long -",
    ];

    public static void Fill(ExamLogStore log, int exams)
    {
        var kinds = Kinds.Select(done => ConstructedExam.Of(done).Exam).ToArray();
        var records = kinds.Select(exam => SignedRecords.Of(exam, "3.0")).ToArray();
        for (var first = 1; first <= exams; first += Batch)
        {
            var numbers = Enumerable.Range(first, Math.Min(Batch, exams - first + 1));
            log.Apply(
                first + Batch,
                new ExamLogChanges
                {
                    Exams =
                    [
                        .. numbers.Select(n =>
                            ExamDocuments.Of(Signed(kinds[n % kinds.Length], records[n % kinds.Length], n))
                        ),
                    ],
                    Patients =
                    [
                        .. numbers
                            .Select(n => n / VisitsOfAPatient)
                            .Distinct()
                            .Select(n => ExamDocuments.Of(Patient(n))),
                    ],
                }
            );
        }
    }

    private static Exam Signed(Exam kind, SignedRecord record, int number)
    {
        var id = new ExamId(number);
        var patient = new PatientId(Number(number / VisitsOfAPatient));
        var at = new UtcTime(kind.Opening.When.At.UnixMilliseconds + (number * 600_000L));
        var text = SignedRecordText.Write(
            record with
            {
                Exam = number,
                Patient = patient.Value,
                Opened = record.Opened with { At = at.ToString() },
            }
        );
        return kind with
        {
            Id = id,
            Patient = patient,
            Status = ExamStatus.Signed,
            Opening = kind.Opening with { When = kind.Opening.When with { At = at } },
            SignedVersions =
            [
                new SignedVersion(1, Entry(number), new JournalSequence(number), new PersonId("DR"), at, null, text),
            ],
        };
    }

    private static PatientEntered Patient(int number) =>
        new()
        {
            Id = Entry(10_000_000 + number),
            Who = new PersonId("MK"),
            At = new UtcTime(0),
            ProgramVersion = "3.0",
            Patient = new PatientId(Number(number)),
            Details = new PatientDetails { Name = "", BirthDate = new DateOnly(1930, 1, 1).AddDays(number % 25_000) },
        };

    private static string Number(int number) => $"Q-{1_000_000 + number}";

    private static EntryId Entry(int number) =>
        EntryId.TryParse($"{number:x32}", out var id) ? id : throw new FormatException();
}
