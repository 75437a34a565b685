using Moq;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Tests.People;

/// <summary>Who may propose, confirm and withdraw an erasure, in whose name, and what is noted of it.</summary>
public sealed class GuardedProposalsTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly Mock<IErasureProposals> proposals = new();
    private readonly Mock<IClinicDesk> clinic = new();
    private readonly Mock<IAuditLog> audit = new();
    private readonly List<AuditNote> notes = [];
    private readonly HashSet<string> administrators = ["AD", "CD"];

    public GuardedProposalsTests()
    {
        audit.Setup(log => log.NoteAsync(Capture.In(notes))).Returns(Task.CompletedTask);
        proposals
            .Setup(all => all.ListAsync(It.IsAny<CancellationToken>()))
            .ReturnsAsync([new ProposalView("a1", "Q-1001", "DPO", "request 17", "AD", At, At.AddDays(7))]);
        proposals
            .Setup(all => all.ProposeAsync(It.IsAny<ErasePatientEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new ProposalOutcome(true, "proposed"));
        proposals
            .Setup(all => all.WithdrawAsync("a1", It.IsAny<CancellationToken>()))
            .ReturnsAsync(new ProposalOutcome(true, "withdrawn"));
        proposals
            .Setup(all =>
                all.ConfirmAsync(
                    It.IsAny<ProposalConfirmation>(),
                    It.IsAny<Func<ErasePatientEntry, Task<EntryOutcome>>>(),
                    It.IsAny<CancellationToken>()
                )
            )
            .Returns(
                async (
                    ProposalConfirmation given,
                    Func<ErasePatientEntry, Task<EntryOutcome>> erase,
                    CancellationToken _
                ) => new ProposalOutcome(await erase(Order(given.Who)) is EntryOutcome.Recorded, given.Number)
            );
        clinic
            .Setup(desk => desk.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
    }

    public static TheoryData<ClinicRole> Others =>
        [ClinicRole.None, ClinicRole.Examiner, ClinicRole.Clinician, ClinicRole.Technician];

    [Theory]
    [MemberData(nameof(Others))]
    public async Task Whoever_may_not_erase_sees_proposes_confirms_and_withdraws_nothing(ClinicRole role)
    {
        var desk = Desk(new Caller("MK", role));
        Func<Task>[] all =
        [
            () => desk.ListAsync(default),
            () => desk.FindAsync("a1", default),
            () => desk.ProposeAsync(Order("MK"), default),
            () => desk.WithdrawAsync("a1", default),
            () => desk.ConfirmAsync("a1", "Q-1001", "1", default),
        ];
        foreach (var one in all)
        {
            await Assert.ThrowsAsync<NotAllowedException>(one);
        }

        Assert.All(notes, note => Assert.Equal((AuditWhat.NotAllowed, "erasing"), (note.What, note.Subject)));
        Assert.Equal(all.Length, notes.Count);
        proposals.VerifyNoOtherCalls();
    }

    [Fact]
    public async Task A_key_of_a_program_may_do_none_of_it_whatever_its_scopes()
    {
        var key = new Caller("lab (key)", ClinicRole.Administrator) { Scopes = [.. KeyScopes.All] };
        await Assert.ThrowsAsync<NotAllowedException>(() => Desk(key).ProposeAsync(Order("lab (key)"), default));
    }

    [Fact]
    public async Task Everything_is_done_in_the_callers_own_name_and_noted_with_whom_it_was_about()
    {
        var desk = Desk(new Caller("AD", ClinicRole.Administrator));
        await desk.ProposeAsync(Order("ZZ"), default);
        proposals.Verify(all =>
            all.ProposeAsync(It.Is<ErasePatientEntry>(order => order.Who == "AD"), It.IsAny<CancellationToken>())
        );
        Assert.Single(await desk.ListAsync(default));
        Assert.NotNull(await desk.FindAsync("a1", default));
        await desk.WithdrawAsync("a1", default);
        Assert.Equal(
            [AuditWhat.Propose, AuditWhat.Proposals, AuditWhat.Proposals, AuditWhat.Withdraw],
            notes.Select(note => note.What)
        );
        Assert.Equal(["Q-1001"], notes[1].Patients);
        Assert.Equal(("Q-1001", "AD"), (notes[0].Asked, notes[0].Subject));
        Assert.Equal(("Q-1001", "AD"), (notes[3].Asked, notes[3].Subject));
        Assert.All(notes, note => Assert.Contains(note.What, AuditWhat.All));
    }

    [Fact]
    public async Task A_confirmed_order_goes_to_the_desk_in_the_name_of_whoever_confirmed_it()
    {
        var outcome = await Desk(new Caller("CD", ClinicRole.Administrator)).ConfirmAsync("a1", "Q-1001", "1", default);
        Assert.Equal(new ProposalOutcome(true, "Q-1001"), outcome);
        clinic.Verify(desk =>
            desk.EnterAsync(It.Is<ErasePatientEntry>(order => order.Who == "CD"), It.IsAny<CancellationToken>())
        );
    }

    [Fact]
    public async Task The_proposal_of_somebody_who_may_not_erase_any_more_is_void()
    {
        administrators.Remove("AD");
        var desk = Desk(new Caller("CD", ClinicRole.Administrator));
        Assert.Empty(await desk.ListAsync(default));
        Assert.Null(await desk.FindAsync("a1", default));
        var outcome = await desk.ConfirmAsync("a1", "Q-1001", "1", default);
        Assert.False(outcome.IsDone);
        Assert.Contains("may not erase any more", outcome.Words, StringComparison.Ordinal);
        clinic.VerifyNoOtherCalls();
    }

    private GuardedProposals Desk(Caller caller) =>
        new(
            proposals.Object,
            clinic.Object,
            caller,
            audit.Object,
            new AuditReader(caller.Who, AuditWay.Page, "/erasing/proposed", "127.0.0.1"),
            TimeProvider.System,
            administrators.Contains
        );

    private static ErasePatientEntry Order(string who) =>
        new()
        {
            EntryId = "00112233445566778899aabbccddeeff",
            Who = who,
            At = At,
            ProgramVersion = "1",
            Patient = "Q-1001",
            OrderedBy = "DPO",
            Reason = "request 17",
        };
}
