using System.IO.Compression;
using System.Text;
using System.Text.Json;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Tests.Projection;

/// <summary>The reducer's book as the exam log carries it.</summary>
public sealed class BookDocumentTests
{
    private static readonly ExamBook Book = ExamBook.Empty with
    {
        LastApplied = new JournalSequence(4711),
        NextCertificate = 12,
        Lanes = ExamBook.Empty.Lanes.AddRange(
            Enumerable
                .Range(100, 200)
                .Select(n => KeyValuePair.Create($"QA-{n}", new LaneState { Serial = new($"QA-{n}") }))
        ),
    };

    [Fact]
    public void What_was_written_is_read_and_writes_the_same_again()
    {
        var bytes = BookDocument.Write(Book);
        var read = BookDocument.Read(4711, bytes, _ => null);
        Assert.Equal(4711, read.LastApplied.Value);
        Assert.Equal(12, read.NextCertificate);
        Assert.Equal(Book.Lanes, read.Lanes);
        Assert.Equal(bytes, BookDocument.Write(read));
    }

    [Fact]
    public void A_book_of_many_instruments_is_a_tenth_of_its_words()
    {
        var bytes = BookDocument.Write(Book);
        Assert.InRange(bytes.Length, 1, Unpacked(bytes).Length / 10);
    }

    [Fact]
    public void What_a_version_before_wrote_unpacked_is_read()
    {
        var read = BookDocument.Read(4711, Unpacked(BookDocument.Write(Book)), _ => null);
        Assert.Equal(BookDocument.Write(Book), BookDocument.Write(read));
    }

    [Fact]
    public void Something_else_and_half_of_it_are_refused()
    {
        var bytes = BookDocument.Write(Book);
        Assert.Throws<JsonException>(() => BookDocument.Read(1, Encoding.UTF8.GetBytes("no book"), _ => null));
        Assert.Throws<JsonException>(() => BookDocument.Read(1, bytes.AsMemory(0, bytes.Length / 2), _ => null));
        Assert.Throws<JsonException>(() => BookDocument.Read(1, ReadOnlyMemory<byte>.Empty, _ => null));
    }

    private static byte[] Unpacked(byte[] bytes)
    {
        using var packed = new ZLibStream(new MemoryStream(bytes), CompressionMode.Decompress);
        using var plain = new MemoryStream();
        packed.CopyTo(plain);
        return plain.ToArray();
    }
}
