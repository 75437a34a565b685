using System.Security.Cryptography;
using System.Text;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Research;
using PupilBridge.Exchange.Tables;
using PupilBridge.Exchange.Tests.Tables;

namespace PupilBridge.Exchange.Tests.Research;

public sealed class ResearchExportTests : IDisposable
{
    private static readonly byte[] Secret = [.. Enumerable.Range(1, 32).Select(n => (byte)n)];
    private readonly string folder = Directory.CreateTempSubdirectory("pupilbridge-research").FullName;

    [Fact]
    public async Task Nothing_in_the_file_tells_who_it_was_or_when()
    {
        var exam = Visit("Q-1001", "2026-03-02T09:14:05.000Z", 4711, "status drops/none");
        exam = exam with
        {
            Record = exam.Record with
            {
                Notes = [new("saw the harbour", "MK", "", 1)],
                Opened = exam.Record.Opened with { Who = "MK" },
            },
            Signature = exam.Signature! with { Who = "QZX" },
        };
        foreach (var isReadings in (bool[])[false, true])
        {
            foreach (var format in Enum.GetValues<TableFormat>())
            {
                var (file, _) = await WriteAsync(isReadings, format, exam);
                string[] secrets =
                [
                    "Q-1001",
                    "Pilot",
                    "MK",
                    "QZX",
                    "harbour",
                    "4711",
                    "2026-03-02",
                    "09:14",
                    "1935",
                    exam.Record.Instrument.Serial,
                    exam.Signature!.Digest,
                    Convert.ToHexStringLower(Secret),
                ];
                Assert.All(secrets, one => Assert.DoesNotContain(one, file, StringComparison.OrdinalIgnoreCase));
                Assert.Contains("90+", file, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task Visits_of_a_patient_keep_their_name_and_their_intervals()
    {
        var (file, report) = await WriteAsync(
            false,
            TableFormat.Csv,
            Visit("Q-1001", "2026-09-01T09:00:00.000Z", 3),
            Visit("Q-1002", "2026-03-02T11:00:00.000Z", 2),
            Visit("Q-1001", "2026-03-02T09:00:00.000Z", 1)
        );
        var rows = PlainCsv.Rows(Encoding.UTF8.GetBytes(file));
        Assert.Equal(rows[0]["subject"], rows[2]["subject"]);
        Assert.NotEqual(rows[0]["subject"], rows[1]["subject"]);
        // From 2 March to 1 September: 29 + 30 + 31 + 30 + 31 + 31 + 1 = 183 days.
        Assert.Equal(183, DayOf(rows[0]).DayNumber - DayOf(rows[2]).DayNumber);
        Assert.NotEqual(DayOf(rows[1]), DayOf(rows[2]));
        Assert.Equal((2, 3L, 3L, 0L), (report.Subjects, report.Exams, report.Rows, report.LeftOut));
    }

    [Fact]
    public async Task Only_signed_exams_of_a_patient_are_exported_and_the_others_are_counted()
    {
        var signed = Visit("Q-1001", "2026-03-02T09:00:00.000Z", 1);
        var nobodys = signed with { Record = signed.Record with { Patient = null } };
        var (_, report) = await WriteAsync(
            false,
            TableFormat.Csv,
            signed,
            signed with
            {
                Signature = null,
            },
            signed with
            {
                IsSetAside = true,
            },
            nobodys
        );
        Assert.Equal((1L, 3L), (report.Exams, report.LeftOut));
    }

    [Fact]
    public async Task The_smallest_class_of_subjects_alike_is_reported_whatever_their_visits()
    {
        // The classes are counted here from what the file says.
        var exams = Enumerable
            .Range(1, 40)
            .SelectMany(n =>
                new[]
                {
                    Visit($"Q-{1000 + n}", "2026-12-31T09:00:00.000Z", n, born: n <= 30 ? "1980-05-17" : "1930-01-01"),
                    Visit(
                        $"Q-{1000 + n}",
                        "2026-12-31T15:00:00.000Z",
                        100 + n,
                        born: n <= 30 ? "1980-05-17" : "1930-01-01"
                    ),
                }
            )
            .ToArray();
        var (file, report) = await WriteAsync(false, TableFormat.Csv, exams);
        var classes = PlainCsv
            .Rows(Encoding.UTF8.GetBytes(file))
            .GroupBy(row => (row["age_band"], row["shifted_day"][..4], row["right_status"] + row["left_status"] != ""))
            .Select(one => one.Select(row => row["subject"]).Distinct().Count())
            .ToList();
        Assert.Equal(classes.Min(), report.K);
        Assert.Equal(classes.Order(), report.Classes.Select(one => one.Subjects));
        Assert.Equal(40, report.Classes.Sum(one => one.Subjects));
        Assert.Equal((40, 80L), (report.Subjects, report.Exams));
    }

    [Fact]
    public async Task Two_numbers_that_are_merged_are_one_subject_with_one_shift_of_days()
    {
        var one = Visit("Q-1001", "2026-03-02T09:00:00.000Z", 1);
        var two = Visit("Q-1002", "2026-03-12T09:00:00.000Z", 2);
        two = two with { Patient = two.Patient! with { MergedInto = "Q-1001" } };

        var (file, report) = await WriteAsync(false, TableFormat.Csv, one, two);

        var rows = PlainCsv.Rows(Encoding.UTF8.GetBytes(file)).ToList();
        Assert.Single(rows.Select(row => row["subject"]).Distinct());
        var days = rows.Select(row => DateOnly.Parse(row["shifted_day"], null).DayNumber).Order().ToList();
        Assert.Equal(10, days[1] - days[0]);
        Assert.Equal((1, 2L), (report.Subjects, report.Exams));
    }

    [Fact]
    public async Task An_export_of_nothing_has_no_k()
    {
        var (_, report) = await WriteAsync(false, TableFormat.Csv);
        Assert.Equal((0, 0), (report.K, report.Classes.Count));
    }

    [Fact]
    public void The_secret_is_drawn_once_and_only_its_owner_may_read_it()
    {
        using var random = RandomNumberGenerator.Create();
        var first = ResearchSecret.ReadOrMake(folder, random);
        Assert.Equal(Pseudonyms.SecretBytes, first.Length);
        Assert.Equal(first, ResearchSecret.ReadOrMake(folder, random));
        var path = Path.Combine(folder, ResearchSecret.FileName);
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        Assert.Contains(
            path,
            Assert.Throws<EntryProblemException>(() => ResearchSecret.ReadOrMake(folder, random)).Message
        );
    }

    [Fact]
    public void A_damaged_secret_is_never_replaced()
    {
        using var random = RandomNumberGenerator.Create();
        ResearchSecret.ReadOrMake(folder, random);
        var path = Path.Combine(folder, ResearchSecret.FileName);
        using (var file = File.OpenWrite(path))
        {
            file.SetLength(31);
        }

        Assert.Throws<EntryProblemException>(() => ResearchSecret.ReadOrMake(folder, random));
        Assert.Equal(31, new FileInfo(path).Length);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static OutgoingRecord Visit(
        string patient,
        string opened,
        long number,
        string done = "nothing",
        string born = "1935-05-17"
    ) => Samples.Of(done, patient, born).At(opened, number).Signed();

    private static DateOnly DayOf(Dictionary<string, string> row) => DateOnly.Parse(row["shifted_day"]);

    private static async Task<(string File, ResearchReport Report)> WriteAsync(
        bool isReadings,
        TableFormat format,
        params OutgoingRecord[] exams
    )
    {
        using var to = new MemoryStream();
        var report = await ResearchExport.WriteAsync(
            isReadings,
            new Pseudonyms(Secret, "harbour"),
            new ListedExams(exams, pageSize: 7),
            new TableSpan(null, null),
            format,
            to,
            default
        );
        return (Encoding.UTF8.GetString(to.ToArray()), report);
    }
}
