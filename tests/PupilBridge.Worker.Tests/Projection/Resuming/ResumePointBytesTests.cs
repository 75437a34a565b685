using System.Text;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Projection.Resuming;

namespace PupilBridge.Worker.Tests.Projection.Resuming;

public sealed class ResumePointBytesTests
{
    private static readonly KeyRing Keys = KeyRing.Create(TimeProvider.System);

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

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_point_comes_back_as_it_was(bool encrypted)
    {
        var point = Point();
        var back = ResumePointBytes.TryRead(ResumePointBytes.Write(point, encrypted ? Keys : null), Keys)!;
        Assert.Equal(point.Position, back.Position);
        Assert.Equal(point.Ended, back.Ended);
        Assert.Equal(point.Book.OpenExams.Values, back.Book.OpenExams.Values);
        Assert.Equal(point.Book.LastApplied, back.Book.LastApplied);
        Assert.Equal(point.Book.Lanes.Values, back.Book.Lanes.Values);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_point_altered_or_cut_anywhere_is_none(bool encrypted)
    {
        var bytes = ResumePointBytes.Write(Point(), encrypted ? Keys : null);
        for (var at = 0; at < bytes.Length; at++)
        {
            var altered = (byte[])bytes.Clone();
            altered[at] ^= 0x10;
            Assert.Null(ResumePointBytes.TryRead(altered, Keys));
            Assert.Null(ResumePointBytes.TryRead(bytes[..at], Keys));
        }
    }

    [Fact]
    public void An_encrypted_point_opens_under_its_keys_alone()
    {
        var bytes = ResumePointBytes.Write(Point(), Keys);
        Assert.Null(ResumePointBytes.TryRead(bytes, KeyRing.Create(TimeProvider.System)));
        Assert.Null(ResumePointBytes.TryRead(bytes, null));
        Assert.NotNull(ResumePointBytes.TryRead(bytes, Keys));
        Assert.DoesNotContain("1001", Encoding.Latin1.GetString(bytes), StringComparison.Ordinal);
    }
}
