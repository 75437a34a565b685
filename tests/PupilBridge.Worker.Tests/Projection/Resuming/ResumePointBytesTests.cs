using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Projection.Resuming;

namespace PupilBridge.Worker.Tests.Projection.Resuming;

public sealed class ResumePointBytesTests
{
    private static ResumePoint Point()
    {
        var book = ExamBook.Empty;
        var opened = new ExamOpened
        {
            Id = new EntryId(1),
            Who = new("MK"),
            At = new(1_000_000),
            ProgramVersion = "test",
            Serial = new("T-100"),
            Patient = new PatientId("Q-1001"),
        };
        (book, _) = ExamReducer.Apply(book, new SequencedEntry(new(1), opened), _ => null);
        var ended = book.OpenExams.Values.Single() with { Id = new ExamId(77) };
        return new ResumePoint(new(1, ChainHash.Of("one"u8)), book, [ended]);
    }

    [Fact]
    public void A_point_comes_back_as_it_was()
    {
        var point = Point();
        var back = ResumePointBytes.TryRead(ResumePointBytes.Write(point))!;
        Assert.Equal(point.Position, back.Position);
        Assert.Equal(point.Ended, back.Ended);
        Assert.Equal(point.Book.OpenExams.Values, back.Book.OpenExams.Values);
        Assert.Equal(point.Book.LastApplied, back.Book.LastApplied);
        Assert.Equal(point.Book.Lanes.Values, back.Book.Lanes.Values);
    }

    [Fact]
    public void A_point_altered_or_cut_anywhere_is_none()
    {
        var bytes = ResumePointBytes.Write(Point());
        for (var at = 0; at < bytes.Length; at++)
        {
            var altered = (byte[])bytes.Clone();
            altered[at] ^= 0x10;
            Assert.Null(ResumePointBytes.TryRead(altered));
            Assert.Null(ResumePointBytes.TryRead(bytes[..at]));
        }
    }
}
