using Moq;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Tests.Audit;

/// <summary>Whoever looks who is due to be erased is noted with whom they saw, as with every list.</summary>
public sealed class AuditedDueTests
{
    [Fact]
    public async Task The_list_of_whoever_is_due_leaves_a_note_of_who_saw_whom()
    {
        var at = new DateTimeOffset(2014, 3, 2, 8, 0, 0, TimeSpan.Zero);
        var clinic = new Mock<IClinicDesk>();
        clinic
            .Setup(desk => desk.ListDueAsync(at, "from here", 50, It.IsAny<CancellationToken>()))
            .ReturnsAsync(new DueList([new("Q-1001", at, 7), new("Q-1003", at, 9)], null));
        var audit = new Mock<IAuditLog>();
        List<AuditNote> notes = [];
        audit.Setup(log => log.NoteAsync(Capture.In(notes))).Returns(Task.CompletedTask);
        var desk = new AuditedDesk(
            clinic.Object,
            lanes: null,
            Mock.Of<IRecordDesk>(),
            Mock.Of<IBenchDesk>(),
            audit.Object,
            new AuditReader("AD", AuditWay.Page, "/erasing", "127.0.0.1"),
            TimeProvider.System
        );
        Assert.Equal(2, (await desk.ListDueAsync(at, "from here", 50, default)).Patients.Count);
        var note = Assert.Single(notes);
        Assert.Equal((AuditWhat.Due, "AD", "/erasing", (int?)2), (note.What, note.Who, note.Path, note.Lines));
        Assert.Equal(["Q-1001", "Q-1003"], note.Patients);
        Assert.Contains(AuditWhat.Due, AuditWhat.All);
    }
}
