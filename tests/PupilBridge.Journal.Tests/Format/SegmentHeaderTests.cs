using System.Buffers.Binary;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Format;

public sealed class SegmentHeaderTests
{
    private static readonly SegmentHeader Header = new()
    {
        Reason = SegmentReason.Failure,
        Number = 12,
        PredecessorNumber = 11,
        Predecessor = new JournalPosition(4711, ChainHash.Of("abc"u8)),
        CreatedUnixMicroseconds = 1_795_600_000_000_000,
        BootId = Guid.Parse("0f8fad5b-d9cb-469f-a165-70867728950e"),
        WriterInstance = Guid.Parse("7c9e6679-7425-40de-944b-e07fc1f90ae7"),
        Writer = "pupilbridge 0.1.0",
    };

    [Fact]
    public void It_is_read_as_it_was_written() => Assert.Equal(Header, SegmentHeader.TryDecode(Header.Encode()));

    [Fact]
    public void Every_changed_bit_is_noticed()
    {
        byte[] bytes = Header.Encode();
        for (int bit = 0; bit < bytes.Length * 8; bit++)
        {
            bytes[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.Null(SegmentHeader.TryDecode(bytes));
            bytes[bit / 8] ^= (byte)(1 << (bit % 8));
        }
        Assert.NotNull(SegmentHeader.TryDecode(bytes));
    }

    [Fact]
    public void Identifiers_stand_in_the_order_in_which_they_are_printed()
    {
        byte[] bytes = Header.Encode();
        Assert.Equal("0f8fad5bd9cb469fa16570867728950e", Convert.ToHexStringLower(bytes.AsSpan(88, 16)));
    }

    [Fact]
    public void A_writers_name_that_is_too_long_is_cut_between_characters()
    {
        SegmentHeader? read = SegmentHeader.TryDecode((Header with { Writer = new string('é', 40) }).Encode());
        Assert.Equal(new string('é', 32), read?.Writer);
    }

    [Theory]
    [InlineData(8, 2, "format 2")]
    [InlineData(120, 2, "method 2")]
    public void A_newer_format_or_an_unknown_protection_is_refused_and_changes_nothing(int at, int value, string says)
    {
        FaultyDisk disk = MemoryJournal.Small();
        string path = MemoryJournal.Segment(2);
        byte[] bytes = disk.Content(path);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(at), value);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(252), Crc32C.Of(bytes.AsSpan(0, 252)));
        disk.Edit(
            path,
            content =>
            {
                content.Clear();
                content.AddRange(bytes);
            }
        );

        JournalFormatException refused = Assert.Throws<JournalFormatException>(() => MemoryJournal.Open(disk));

        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
        Assert.Contains(path, refused.Message, StringComparison.Ordinal);
        Assert.Contains("newer one", refused.Message, StringComparison.Ordinal);
        Assert.Equal(bytes, disk.Content(path));
        Assert.False(disk.IsLocked(MemoryJournal.Folder));
        Assert.Throws<JournalFormatException>(() => MemoryJournal.Verify(disk));
    }
}
