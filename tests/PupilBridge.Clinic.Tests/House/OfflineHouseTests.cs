using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;

namespace PupilBridge.Clinic.Tests.House;

/// <summary>The desk on a data folder without a running service, on real files.</summary>
public sealed class OfflineHouseTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("offline-test-");
    private int drawn;

    private BridgeParts Parts =>
        new()
        {
            Options = new BridgeOptions { DataFolder = folder.FullName },
            ProgramVersion = "0.1.0",
        };

    private string JournalFiles => Path.Combine(folder.FullName, "journal");

    [Fact]
    public async Task Asking_leaves_the_journal_as_it_is()
    {
        await EnterAsync(Patient("Q-1001"));
        var before = Sizes();

        await using (var house = OfflineHouse.Open(Parts))
        {
            var desk = new ClinicDesk(house);
            Assert.Equal("Q-1001", Assert.Single((await desk.ListPatientsAsync(null, 50, default)).Patients).Patient);
            Assert.Empty((await desk.ListExamsAsync(new ExamListRequest(), default)).Exams);
            Assert.False((await desk.ListInstrumentsAsync(default)).IsLive);
            Assert.Null(await desk.ShowExamAsync(1, default));
        }

        Assert.Equal(before, Sizes());
    }

    [Fact]
    public async Task What_was_entered_is_there_at_once_and_for_the_next_command()
    {
        await using (var house = OfflineHouse.Open(Parts))
        {
            var desk = new ClinicDesk(house);
            Assert.Empty((await desk.ListPatientsAsync(null, 50, default)).Patients);
            Assert.IsType<EntryOutcome.Recorded>(await desk.EnterAsync(Patient("Q-1001"), default));
            Assert.IsType<EntryOutcome.Recorded>(await desk.EnterAsync(Patient("Q-1002"), default));
        }

        await using var next = OfflineHouse.Open(Parts);
        var patients = (await new ClinicDesk(next).ListPatientsAsync(null, 50, default)).Patients;
        Assert.Equal(["Q-1001", "Q-1002"], patients.Select(patient => patient.Patient));
    }

    [Fact]
    public async Task The_same_entry_from_two_commands_is_recorded_once()
    {
        var entry = Patient("Q-1001");

        var first = Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(entry));
        var second = Assert.IsType<EntryOutcome.AlreadyRecorded>(await EnterAsync(entry));

        Assert.Equal(first.Sequence, second.Sequence);
    }

    [Fact]
    public async Task While_a_service_has_the_folder_it_cannot_be_opened()
    {
        await using var bridge = Bridge.Open(Parts with { FindPorts = () => [] });

        var locked = Assert.Throws<JournalLockedException>(() => OfflineHouse.Open(Parts));

        Assert.Contains(folder.FullName, locked.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_exam_log_is_moved_aside_and_made_anew()
    {
        await EnterAsync(Patient("Q-1001"));
        var data = Path.Combine(folder.FullName, "examlog", "exams.db");
        await File.WriteAllBytesAsync(data, new byte[new FileInfo(data).Length]);

        await using var house = OfflineHouse.Open(Parts);

        Assert.Single((await new ClinicDesk(house).ListPatientsAsync(null, 50, default)).Patients);
        Assert.Single(Directory.EnumerateDirectories(folder.FullName, "examlog.aside-*"));
    }

    [Fact]
    public async Task A_merging_is_known_to_the_next_command_and_to_an_exam_log_made_anew()
    {
        await EnterAsync(Patient("Q-1001"));
        await EnterAsync(Patient("Q-1002"));
        Assert.IsType<EntryOutcome.Recorded>(
            await EnterAsync(
                new MergeEntry
                {
                    EntryId = Guid.NewGuid().ToString("N"),
                    Who = "DR",
                    At = At,
                    ProgramVersion = "0.1.0",
                    Kept = "Q-1001",
                    Merged = "Q-1002",
                    Reason = "entered twice",
                }
            )
        );
        await using (var next = OfflineHouse.Open(Parts))
        {
            Assert.Equal("Q-1001", next.Book.Mergings.Surviving(new("Q-1002")).Value);
        }

        OfflineFolder.Rebuild(Parts, "a test", default);
        await using (var anew = OfflineHouse.Open(Parts))
        {
            Assert.Equal("Q-1001", anew.Book.Mergings.Surviving(new("Q-1002")).Value);
        }

        Assert.True(ProjectionCheck.Offline(Parts, default).IsSame);
        Assert.IsType<EntryOutcome.Recorded>(
            await EnterAsync(
                new PartEntry
                {
                    EntryId = Guid.NewGuid().ToString("N"),
                    Who = "DR",
                    At = At,
                    ProgramVersion = "0.1.0",
                    Merged = "Q-1002",
                    Reason = "two persons",
                }
            )
        );
        await using var last = OfflineHouse.Open(Parts);
        Assert.Empty(last.Book.Mergings.All);
    }

    [Fact]
    public async Task The_check_finds_the_exam_log_equal_to_the_journal()
    {
        await EnterAsync(Patient("Q-1001"));
        await EnterAsync(Patient("Q-1002"));

        var check = ProjectionCheck.Offline(Parts, default);

        Assert.True(check.IsSame, $"{check}");
        Assert.True(check.InExamLog!.Documents >= 2);
        Assert.True(check.JournalEnd > 0);
        Assert.Equal(
            ["entry-index", "examlog", "journal", "resume"],
            Directory.EnumerateDirectories(folder.FullName).Select(Path.GetFileName).Order()
        );
    }

    [Fact]
    public async Task The_check_beside_a_running_service_finds_it_equal_as_well()
    {
        var parts = Parts with { FindPorts = () => [] };
        await using var bridge = Bridge.Open(parts);
        var desk = new ClinicDesk(new BridgeHouse(bridge, isLive: true));
        Assert.IsType<EntryOutcome.Recorded>(await desk.EnterAsync(Patient("Q-1001"), default));

        var check = ProjectionCheck.Beside(bridge, parts, default);

        Assert.True(check.IsSame, $"{check}");
    }

    [Fact]
    public async Task The_check_notices_an_exam_log_that_holds_something_else()
    {
        await EnterAsync(Patient("Q-1001"));
        // A sound exam log with the right position and a patient whom the journal does not know.
        using (var log = ExamLog.ExamLogStore.Open(folder.FullName))
        {
            log.Apply(
                log.LastApplied + 1,
                new ExamLog.ExamLogChanges { Patients = [new() { Id = "Q-9999", Body = new byte[] { 1 } }] }
            );
        }

        var check = ProjectionCheck.Offline(Parts, default);

        Assert.False(check.IsSame);
        Assert.Null(check.Trouble);
        var rebuilt = OfflineFolder.Rebuild(Parts, "it differed from the journal", default);
        Assert.Equal(check.FromJournal, rebuilt.Digest);
        Assert.True(ProjectionCheck.Offline(Parts, default).IsSame);
    }

    [Fact]
    public async Task Watching_without_a_service_shows_what_the_journal_knows_and_waits()
    {
        await using var house = OfflineHouse.Open(Parts);
        using var stop = new CancellationTokenSource(TimeSpan.FromMilliseconds(200));

        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
        {
            await foreach (var lane in new ClinicDesk(house).WatchAsync(null, stop.Token))
            {
                Assert.Fail($"nothing was ever met, and {lane.Instrument.Instrument} is shown");
            }
        });
    }

    public void Dispose() => folder.Delete(recursive: true);

    private async Task<EntryOutcome> EnterAsync(DeskEntry entry)
    {
        await using var house = OfflineHouse.Open(Parts);
        return await new ClinicDesk(house).EnterAsync(entry, default);
    }

    private PatientEntry Patient(string number) =>
        new()
        {
            EntryId = (++drawn).ToString("x32", System.Globalization.CultureInfo.InvariantCulture),
            Who = "MK",
            At = At,
            ProgramVersion = "0.1.0",
            Patient = number,
        };

    private List<(string Name, long Bytes)> Sizes() =>
        [
            .. Directory
                .EnumerateFiles(JournalFiles)
                .Order(StringComparer.Ordinal)
                .Select(file => (Path.GetFileName(file), new FileInfo(file).Length)),
        ];
}
