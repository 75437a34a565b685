using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Records;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Clinic.Tests.House;

/// <summary>Records on real files: in a running bridge, and on its folder afterwards.</summary>
public sealed class RecordHouseTests : IDisposable
{
    private const string Csv = "patient,name,time\nQ-1001,A. Pilot,09:00\nQ-1002,B. Crane,09:30";
    private static readonly DateOnly Day = new(2026, 3, 2);
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("records-test-");

    private BridgeParts Parts =>
        new()
        {
            Options = new BridgeOptions { DataFolder = folder.FullName },
            ProgramVersion = "0.1.0",
            FindPorts = () => [],
        };

    [Fact]
    public async Task What_was_entered_is_there_at_once_and_after_the_service_has_gone()
    {
        await using (var bridge = Bridge.Open(Parts))
        {
            var house = new BridgeHouse(bridge, isLive: true);
            using var records = new RecordDesk(house, TimeProvider.System);
            Assert.Null(await records.ShowPatientAsync("Q-1001", default));

            Assert.True((await ImportAsync(records)).Done);

            await SameAsync(records);
            Assert.Equal("A. Pilot", (await records.ShowPatientAsync("Q-1001", default))!.Name);
            await EveryEntryAsync(records, house);
        }

        await using var after = OfflineHouse.Open(Parts);
        using var later = new RecordDesk(after, TimeProvider.System);
        await SameAsync(later);
        Assert.Equal(
            ["Q-1001", "Q-1002"],
            (await later.FindPatientsAsync("q", null, 50, default)).Patients.Select(patient => patient.Patient)
        );
        Assert.Null(await later.ShowRawAsync(4711, default));
    }

    [Fact]
    public async Task The_same_file_after_a_restart_does_nothing()
    {
        await using (var bridge = Bridge.Open(Parts))
        {
            using var records = new RecordDesk(new BridgeHouse(bridge, isLive: true), TimeProvider.System);
            await ImportAsync(records);
        }

        await using var again = Bridge.Open(Parts);
        using var next = new RecordDesk(new BridgeHouse(again, isLive: true), TimeProvider.System);

        Assert.Contains("was taken before", (await ImportAsync(next)).Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_command_without_a_service_is_warned_of_a_number_that_is_known()
    {
        await using var house = OfflineHouse.Open(Parts);
        using var records = new RecordDesk(house, TimeProvider.System);
        await ImportAsync(records);

        var refused = await new ClinicDesk(house).EnterAsync(
            new PatientEntry
            {
                EntryId = "00112233445566778899aabbccddeeff",
                Who = "MK",
                At = DateTimeOffset.UnixEpoch,
                ProgramVersion = "0.1.0",
                Patient = "Q-1001",
                Name = "C. Pilot",
            },
            default
        );

        Assert.Contains("'A. Pilot'", Assert.IsType<EntryOutcome.Refused>(refused).Reason, StringComparison.Ordinal);
    }

    public void Dispose() => folder.Delete(recursive: true);

    private static async Task<DayListImport> ImportAsync(RecordDesk records)
    {
        using var csv = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(Csv));
        return await records.ImportDayListAsync(csv, "list.csv", Day, new Caller("MK", ClinicRole.Examiner), default);
    }

    private static async Task SameAsync(RecordDesk records) =>
        Assert.Equal(
            [("Q-1001", "A. Pilot", "09:00"), ("Q-1002", "B. Crane", "09:30")],
            (await records.DayListAsync(Day, default)).Items.Select(item =>
                (item.Patient.Patient, item.Patient.Name, item.Time)
            )
        );

    /// <summary>Every place of the journal gives the entry that stands there, or none where the journal's own records stand.</summary>
    private static async Task EveryEntryAsync(RecordDesk records, BridgeHouse house)
    {
        var kinds = new List<string>();
        for (var place = 1L; place <= house.Book.LastApplied.Value; place++)
        {
            if (await records.ShowRawAsync(place, default) is { } raw)
            {
                Assert.Equal(place, raw.Sequence);
                kinds.Add(raw.Kind);
            }
        }

        Assert.Equal(2, kinds.Count(kind => kind == "patient-entered"));
        Assert.Contains("profile-in-force", kinds);
        Assert.Equal("day-list-entered", kinds[^1]);
        Assert.IsType<DayListEntered>(house.ReadEntry(house.Book.LastApplied)!.Entry);
    }
}
