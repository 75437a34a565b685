using System.Buffers;
using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Entries.Codec;

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
                    bytes[at % bytes.Length] = value;
                    if (EntryCodec.TryDecode(bytes, out var read, out _))
                        Assert.Equal(bytes, EntryCodec.Encode(read!));
                },
                iter: 5_000
            );

    [Fact]
    public void An_unknown_kind_is_refused_with_what_to_do()
    {
        var refusal = Assert.Throws<EntryRefusedException>(() => EntryCodec.Decode([0xC8, 0x01, 1, 0, 0])).Refusal;
        Assert.Equal((RefusalCause.UnknownKind, 200, 1), (refusal.Cause, refusal.Kind, refusal.Version));
        Assert.Contains("Install that version", refusal.Message);
    }

    [Fact]
    public void A_newer_version_of_a_known_kind_is_refused_with_what_to_do()
    {
        var refusal = Assert.Throws<EntryRefusedException>(() => EntryCodec.Decode([1, 2, 0, 0])).Refusal;
        Assert.Equal((RefusalCause.NewerVersion, 1, 2), (refusal.Cause, refusal.Kind, refusal.Version));
        Assert.Contains("reads up to 1", refusal.Message);
    }

    [Fact]
    public void An_unknown_protection_is_refused()
    {
        Assert.False(EntryCodec.TryDecode([100, 1, 9, 0], out _, out var refusal));
        Assert.Equal(RefusalCause.UnknownProtection, refusal!.Cause);
    }

    [Fact]
    public void A_reserved_number_has_no_format_yet() =>
        Assert.Equal(
            RefusalCause.UnknownKind,
            EntryCodec.TryDecode([122, 1, 0, 0], out _, out var refusal) ? 0 : refusal!.Cause
        );

    [Fact]
    public void Version_1_of_an_event_keeps_its_bytes()
    {
        // The format's own fixed point: what is in journals already must stay readable. Written out by hand from the
        // layout: kind, version, no protected part, length, then the fields.
        byte[] expected =
        [
            11,
            1,
            0,
            26,
            2,
            (byte)'Q',
            (byte)'7',
            1,
            0,
            0,
            0,
            0,
            0,
            0,
            0x80,
            6,
            4,
            (byte)'E',
            (byte)'V',
            (byte)',',
            (byte)'x',
            0x80,
            0x89,
            0x7A,
            4,
            18,
        ];
        var entry = new InstrumentReported
        {
            Serial = new SerialNumber("Q7"),
            Boot = new BootNumber(0x8000000000000001),
            Sequence = 3,
            RawLine = "EV,x",
            HappenedAt = new(1_000_000),
            UncertaintyMilliseconds = 2,
            ArrivedAt = new(1_000_009),
        };
        expected[3] = (byte)(expected.Length - 4);
        Assert.Equal(expected, EntryCodec.Encode(entry));
        Assert.Equal(entry, EntryCodec.Decode(expected));
    }

    [Fact]
    public void The_protected_part_stands_last_and_an_erased_one_leaves_the_rest()
    {
        var entered = new PatientEntered
        {
            Id = new(1),
            Who = new("AB"),
            At = new(0),
            ProgramVersion = "0",
            Patient = new("Q-1001"),
            Details = new() { Name = "Example", BirthDate = new(1980, 2, 29) },
        };
        var whole = EntryCodec.Encode(entered);
        var erased = EntryCodec.Encode(entered with { Details = null });
        Assert.Equal(whole[3], erased[3]);
        Assert.Equal(whole[4..(4 + whole[3])], erased[4..]);
        Assert.True(whole.AsSpan(4 + whole[3]).IndexOf("Example"u8) >= 0);
        Assert.Equal(entered with { Details = null }, EntryCodec.Decode(erased));
    }

    [Fact]
    public void Version_1_of_a_signature_keeps_its_bytes()
    {
        // Written out by hand from the layout: kind, version, plain protected part, length of the open part; id, who, at,
        // program version, exam, version, made up to; then record and reason.
        byte[] expected =
        [
            120,
            1,
            1,
            26,
            .. new byte[] { 9 },
            .. new byte[15],
            .. "\u0002AB"u8,
            4,
            .. "\u00010"u8,
            10,
            4,
            1,
            16,
            .. "\u0004text"u8,
            1,
            .. "\u0003why"u8,
        ];
        var entry = new ExamSigned
        {
            Id = new(9),
            Who = new("AB"),
            At = new(2),
            ProgramVersion = "0",
            Exam = new(5),
            Version = 2,
            MadeUpTo = new JournalSequence(8),
            Record = "text",
            Reason = "why",
        };
        Assert.Equal(expected, EntryCodec.Encode(entry));
        Assert.Equal(entry, EntryCodec.Decode(expected));
        Assert.Equal(
            entry with
            {
                Record = null,
                Reason = null,
            },
            EntryCodec.Decode(EntryCodec.Encode(entry with { Record = null }))
        );
    }

    [Fact]
    public void Version_1_of_a_days_list_keeps_its_bytes()
    {
        byte[] expected =
        [
            132,
            1,
            1,
            0,
            44,
            .. new byte[] { 9 },
            .. new byte[15],
            .. "\u0002AB"u8,
            4,
            .. "\u00010"u8,
            .. new byte[] { 0xD0, 0xA9, 0x5A },
            2,
            .. "\u0003Q-1"u8,
            1,
            0xEE,
            0x04,
            .. "\u0003Q-2"u8,
            0,
            .. "\u0005a.csv"u8,
        ];
        var entry = new DayListEntered
        {
            Id = new(9),
            Who = new("AB"),
            At = new(2),
            ProgramVersion = "0",
            Date = new(2026, 11, 25),
            Items =
            [
                new() { Patient = new("Q-1"), MinuteOfDay = 622 },
                new() { Patient = new("Q-2"), MinuteOfDay = null },
            ],
            SourceName = "a.csv",
        };
        Assert.Equal(expected, EntryCodec.Encode(entry));
        Assert.Equal(entry, EntryCodec.Decode(expected));
    }

    [Fact]
    public void The_longest_record_with_the_longest_of_all_else_fits_into_one_entry_of_the_journal()
    {
        const int mostBytesOfAnEntry = 65_536;
        var entry = new ExamSigned
        {
            Id = new(UInt128.MaxValue),
            Who = new(new string('\u4E00', ShortText.MaxLength)),
            At = new(long.MaxValue),
            ProgramVersion = new string('9', 200),
            Exam = new(long.MaxValue),
            Version = int.MaxValue,
            MadeUpTo = new JournalSequence(long.MaxValue),
            Record = new string('x', ExamSigned.MaxRecordBytes),
            Reason = new string('y', AmendmentBegun.MaxReasonBytes),
        };
        Assert.InRange(EntryCodec.Encode(entry).Length, ExamSigned.MaxRecordBytes, mostBytesOfAnEntry);
    }

    [Fact]
    public void What_changed_about_a_person_cannot_hold_a_hash()
    {
        var change = new PersonChanged
        {
            Id = new(9),
            Who = new("AB"),
            At = new(2),
            ProgramVersion = "0",
            Person = new("CD"),
            Roles = PersonRoles.Examiner,
            IsEnabled = true,
            What = "added",
        };
        Assert.Throws<ArgumentException>(() => change with { What = new string('A', 84) });
        Assert.Throws<ArgumentException>(() => change with { What = "" });
    }

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
