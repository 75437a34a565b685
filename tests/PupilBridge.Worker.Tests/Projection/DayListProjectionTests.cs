using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Tests.Projection;

/// <summary>The clinic's own entries in the exam log: days' lists, and who is a known person.</summary>
public sealed class DayListProjectionTests
{
    private static readonly DateOnly Monday = new(2026, 3, 2);

    [Fact]
    public async Task The_list_entered_last_for_a_day_holds_whole_and_another_day_keeps_its_own()
    {
        await using var bench = new BridgeBench();
        await EnterAsync(bench, Monday, "Q-1001", "Q-1002", "Q-1003");
        await EnterAsync(bench, Monday.AddDays(1), "Q-1009");
        await EnterAsync(bench, Monday, "Q-1002", "Q-1001");

        await Eventually.Is(() => Find(bench, Monday)?.Items.Count == 2 && Find(bench, Monday.AddDays(1)) is not null);
        Assert.Equal(["Q-1002", "Q-1001"], Find(bench, Monday)!.Items.Select(item => item.Patient.Value));
        Assert.Equal([480, 495], Find(bench, Monday)!.Items.Select(item => item.MinuteOfDay!.Value));
        Assert.Null(Find(bench, Monday.AddDays(2)));
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        var check = ProjectionCheck.Offline(new BridgeParts { Options = bench.Options, Disk = bench.Disk }, default);
        Assert.True(check.IsSame, check.ToString());
    }

    [Fact]
    public async Task People_who_enter_or_are_added_are_known_and_a_refused_name_is_not()
    {
        await using var bench = new BridgeBench();
        await bench.Bridge.Keeper.RecordAsync(Changed(bench, "AB", isEnabled: true));
        await bench.Bridge.Keeper.RecordAsync(Changed(bench, "ZZ", isEnabled: false));
        await bench.Bridge.Keeper.RecordAsync(SignedIn(bench, "guessed", SignInKind.Refused));
        await bench.Bridge.Keeper.RecordAsync(SignedIn(bench, "guessed again", SignInKind.LockedOut));
        var last = await bench.Bridge.Keeper.RecordAsync(SignedIn(bench, "Jo", SignInKind.SignedIn));

        await Eventually.Is(() => bench.Bridge.ExamLog.LastApplied >= last.Sequence.Value);
        var people = bench.Bridge.ExamLog.Read(log => log.ListLookUps(ExamDocuments.PeopleList));
        Assert.Equal(["AB", "Jo", "admin"], people.Select(person => person.Key));
    }

    private static DayListEntered? Find(BridgeBench bench, DateOnly day) =>
        bench.Bridge.ExamLog.Read(log => ExamDocuments.FindDayList(log, day));

    private static Task<Receipt> EnterAsync(BridgeBench bench, DateOnly day, params string[] patients) =>
        bench.Bridge.Keeper.RecordAsync(
            bench.Stamp(id => new DayListEntered
            {
                Id = id,
                Who = new PersonId("MK"),
                At = UtcTime.From(TimeProvider.System.GetUtcNow()),
                ProgramVersion = "test",
                Date = day,
                Items =
                [
                    .. patients.Select(
                        (patient, at) =>
                            new DayListItem { Patient = new PatientId(patient), MinuteOfDay = 480 + (15 * at) }
                    ),
                ],
                SourceName = "monday.csv",
            })
        );

    private static PersonChanged Changed(BridgeBench bench, string person, bool isEnabled) =>
        bench.Stamp(id => new PersonChanged
        {
            Id = id,
            Who = new PersonId("admin"),
            At = UtcTime.From(TimeProvider.System.GetUtcNow()),
            ProgramVersion = "test",
            Person = new PersonId(person),
            Roles = PersonRoles.Examiner,
            IsEnabled = isEnabled,
            What = "added",
        });

    private static PersonSignedIn SignedIn(BridgeBench bench, string person, SignInKind kind) =>
        bench.Stamp(id => new PersonSignedIn
        {
            Id = id,
            Who = new PersonId(person),
            At = UtcTime.From(TimeProvider.System.GetUtcNow()),
            ProgramVersion = "test",
            Person = new PersonId(person),
            Kind = kind,
            Where = "console",
        });
}
