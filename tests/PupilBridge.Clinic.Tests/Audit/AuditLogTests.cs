using System.Globalization;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Audit;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Tests.Audit;

/// <summary>The audit stream on a real disk: what is noted is there, altered notes show, and the disk's trouble stops no reading.</summary>
public sealed class AuditLogTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pb-audit-");
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));
    private readonly List<string> remarks = [];

    private AuditParts Parts =>
        new()
        {
            House = new JournalFolder(folder.FullName),
            Time = time,
            ProgramVersion = "0.0-test",
            Remark = remarks.Add,
            PreallocateBytes = 0,
        };

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task What_was_noted_is_there_after_a_new_start_the_latest_first()
    {
        using (var log = new AuditLog(Parts))
        {
            await log.NoteAsync(Note("MK", "Q-1001"));
            await log.NoteAsync(
                Note("JL", "Q-1002") with
                {
                    Exam = 7,
                    Version = 2,
                    Path = "/exams/7",
                    From = "127.0.0.1",
                }
            );
        }

        using var again = new AuditLog(Parts);
        var page = await ListAsync(again, new AuditSearch());
        Assert.Equal(["JL", "MK"], page.Lines.Select(line => line.Note.Who));
        var latest = page.Lines[0].Note;
        Assert.Equal((7L, 2, "/exams/7", "127.0.0.1"), (latest.Exam, latest.Version, latest.Path, latest.From));
        Assert.Equal(["Q-1002"], latest.Patients);
        Assert.Null(page.Next);
    }

    [Fact]
    public async Task A_note_changed_on_disk_shows_when_the_stream_is_verified()
    {
        using (var log = new AuditLog(Parts))
        {
            await log.NoteAsync(Note("MK", "Q-1001"));
            await log.NoteAsync(Note("MK", "Q-1002"));
        }

        Assert.True(JournalVerifier.Verify(RealDisk.Instance, Parts.Folder).IsSound);
        var file = Directory.EnumerateFiles(Parts.Folder.Segments).Order(StringComparer.Ordinal).First();
        var bytes = await File.ReadAllBytesAsync(file);
        var at = bytes.AsSpan().IndexOf("Q-1001"u8);
        bytes[at + 5] = (byte)'9';
        await File.WriteAllBytesAsync(file, bytes);
        Assert.False(JournalVerifier.Verify(RealDisk.Instance, Parts.Folder).IsSound);
    }

    [Fact]
    public async Task A_page_is_found_by_patient_person_and_day()
    {
        using var log = new AuditLog(Parts);
        for (var day = 0; day < 3; day++)
        {
            foreach (var (who, patient) in new[] { ("MK", "Q-1001"), ("JL", "Q-1002"), ("MK", "Q-1002") })
            {
                await log.NoteAsync(Note(who, patient));
            }

            time.Advance(TimeSpan.FromDays(1));
        }

        Assert.Equal(6, (await ListAsync(log, new AuditSearch { Patient = "q-1002" })).Lines.Count);
        Assert.Equal(6, (await ListAsync(log, new AuditSearch { Person = "mk" })).Lines.Count);
        var second = new DateTimeOffset(2026, 3, 3, 0, 0, 0, TimeSpan.Zero);
        var ofDay = new AuditSearch { From = second, Before = second.AddDays(1) };
        Assert.Equal(3, (await ListAsync(log, ofDay)).Lines.Count);
        Assert.Single((await ListAsync(log, ofDay with { Person = "JL", Patient = "Q-1002" })).Lines);
        Assert.Empty((await ListAsync(log, ofDay with { Patient = "Q-9999" })).Lines);
    }

    [Fact]
    public async Task Pages_follow_each_other_without_a_hole_and_without_a_repetition()
    {
        using var log = new AuditLog(Parts);
        await Task.WhenAll(Enumerable.Range(0, 300).Select(n => log.NoteAsync(Note($"P{n}", "Q-1001"))));
        var seen = new List<string>();
        string? after = null;
        do
        {
            var page = await ListAsync(log, new AuditSearch { Limit = 7, After = after });
            seen.AddRange(page.Lines.Select(line => line.Note.Who));
            after = page.Next;
        } while (after is not null);
        Assert.Equal(300, seen.Count);
        Assert.Equal(300, seen.Distinct().Count());
    }

    [Fact]
    public async Task Where_the_disk_takes_nothing_reading_goes_on_and_what_was_missed_is_counted()
    {
        // A file in the place of the folder: nothing can be made there.
        var inTheWay = Path.Combine(folder.FullName, "audit");
        await File.WriteAllTextAsync(inTheWay, "");
        using var log = new AuditLog(Parts);
        await log.NoteAsync(Note("MK", "Q-1001"));
        await log.NoteAsync(Note("MK", "Q-1002"));
        Assert.NotEmpty(remarks);
        File.Delete(inTheWay);
        time.Advance(TimeSpan.FromSeconds(31));
        await log.NoteAsync(Note("MK", "Q-1003"));
        var line = Assert.Single((await ListAsync(log, new AuditSearch())).Lines);
        Assert.Equal(2, line.Note.Missed);
    }

    [Fact]
    public void A_note_of_the_longest_list_fits_into_one_record()
    {
        var number = new string('9', 64);
        var note = Note("MK", number) with
        {
            Patients =
            [
                .. Enumerable
                    .Range(0, AuditNote.MostPatients)
                    .Select(n => n.ToString("D64", CultureInfo.InvariantCulture)),
            ],
        };
        var bytes = AuditRecord.Open(note);
        Assert.InRange(bytes.Length, 1, new JournalOptions { Folder = Parts.Folder }.MaxRecordBytes);
        Assert.Equal(note.Patients, AuditRecord.Read(bytes)!.Note.Patients);
        Assert.Null(AuditRecord.Read(Encoding.UTF8.GetBytes("no note")));
    }

    private static Task<AuditPage> ListAsync(AuditLog log, AuditSearch search) =>
        log.ListAsync(search, CancellationToken.None);

    private AuditNote Note(string who, string patient) =>
        new()
        {
            At = time.GetUtcNow(),
            Who = who,
            What = AuditWhat.Record,
            Way = AuditWay.Page,
            Patients = [patient],
        };
}
