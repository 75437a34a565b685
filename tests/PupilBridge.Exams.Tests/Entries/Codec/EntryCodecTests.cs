using System.Buffers;
using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>The codec over random entries and over garbage.</summary>
public class EntryCodecTests
{
    public static TheoryData<string> Kinds => [.. EntryGen.ByKind.Keys.Select(type => type.Name)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void An_entry_reads_back_as_it_was_written(string kind) =>
        EntryGen
            .ByKind.Single(pair => pair.Key.Name == kind)
            .Value.Sample(entry => Assert.Equal(entry, EntryCodec.Decode(EntryCodec.Encode(entry))), iter: 300);

    [Fact]
    public void Every_kind_of_entry_has_a_generator_here_and_a_place_in_the_codec()
    {
        var kinds = typeof(JournalEntry)
            .Assembly.GetTypes()
            .Where(t => t.IsSubclassOf(typeof(JournalEntry)) && !t.IsAbstract);
        Assert.Equal(kinds.OrderBy(t => t.Name), EntryGen.ByKind.Keys.OrderBy(t => t.Name));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_cut_off_entry_is_refused_at_every_length(string kind) =>
        EntryGen
            .ByKind.Single(pair => pair.Key.Name == kind)
            .Value.Sample(
                entry =>
                {
                    var bytes = EntryCodec.Encode(entry);
                    for (var length = 0; length < bytes.Length; length++)
                    {
                        // A cut inside a trailing text could only pass if the text's own length were cut with it.
                        Assert.False(EntryCodec.TryDecode(bytes.AsSpan(0, length), out _, out var refusal));
                        Assert.Equal(RefusalCause.Damaged, refusal!.Cause);
                    }
                },
                iter: 50
            );

    [Fact]
    public void Bytes_beyond_the_end_are_refused() =>
        EntryGen.Any.Sample(
            entry =>
            {
                byte[] bytes = [.. EntryCodec.Encode(entry), 0];
                Assert.False(EntryCodec.TryDecode(bytes, out _, out _));
            },
            iter: 500
        );

    [Fact]
    public void Garbage_is_refused_or_read_and_never_throws() =>
        Gen
            .Byte.Array[0, 80]
            .Sample(
                bytes =>
                {
                    var read = EntryCodec.TryDecode(bytes, out var entry, out var refusal);
                    Assert.Equal((read, !read), (entry is not null, refusal is not null));
                },
                iter: 20_000
            );

    [Fact]
    public void A_changed_byte_is_refused_or_reads_as_an_entry_that_writes_back_to_the_same_bytes() =>
        Gen.Select(EntryGen.Any, Gen.Int[0, 10_000], Gen.Byte)
            .Sample(
                (entry, at, value) =>
                {
                    var bytes = EntryCodec.Encode(entry);
                    // The version stands behind the kind, which takes two bytes from 128 on.
                    var versionAt = bytes[0] < 128 ? 1 : 2;
                    var version = bytes[versionAt];
                    bytes[at % bytes.Length] = value;
                    if (!EntryCodec.TryDecode(bytes, out var read, out _))
                        return;
                    var written = EntryCodec.Encode(read!);
                    // What says that an earlier version wrote it is lifted, and is written as of this one from then on.
                    if (bytes[versionAt] < version && at % bytes.Length == versionAt)
                        Assert.Equal(written, EntryCodec.Encode(EntryCodec.Decode(written)));
                    else
                        Assert.Equal(bytes, written);
                },
                iter: 5_000
            );

    [Fact]
    public void Encoding_appends_to_what_the_buffer_holds()
    {
        var buffer = new ArrayBufferWriter<byte>();
        var entry = new SilenceReached { At = new(5), Serial = new("A") };
        EntryCodec.Encode(entry, buffer);
        EntryCodec.Encode(entry, buffer);
        Assert.Equal([.. EntryCodec.Encode(entry), .. EntryCodec.Encode(entry)], buffer.WrittenSpan.ToArray());
    }
}
