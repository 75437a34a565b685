using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>The bytes of entries, which journals on disk hold already: they stay as they are.</summary>
public class EntryBytesTests
{
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
    public void Version_1_of_a_sign_in_is_read_as_it_was_written()
    {
        // Kind (131, in two bytes), version, no protected part, length; id, who, at, program version; whom, what (idle), where.
        byte[] written =
        [
            131,
            1,
            1,
            0,
            30,
            .. new byte[] { 9 },
            .. new byte[15],
            .. "\u0002AB"u8,
            4,
            .. "\u00010"u8,
            .. "\u0002MK"u8,
            6,
            .. "\u0003Q-1"u8,
        ];
        var entry = new PersonSignedIn
        {
            Id = new(9),
            Who = new("AB"),
            At = new(2),
            ProgramVersion = "0",
            Person = new("MK"),
            Kind = SignInKind.SignedOffIdle,
            Where = "Q-1",
        };
        Assert.Equal(entry, EntryCodec.Decode(written));
        written[2] = 2;
        Assert.Equal(written, EntryCodec.Encode(entry));
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
}
