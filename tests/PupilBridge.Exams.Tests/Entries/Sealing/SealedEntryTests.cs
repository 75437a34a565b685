using System.Buffers;
using System.Text;
using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Exams.Tests.Entries.Codec;

namespace PupilBridge.Exams.Tests.Entries.Sealing;

/// <summary>Entries with what says who a patient is sealed.</summary>
public sealed class SealedEntryTests
{
    private static readonly PatientId Patient = new("Q-1001");

    private static readonly NoteEntered Note = new()
    {
        Id = new(7),
        Who = new("MK"),
        At = new(1_000),
        ProgramVersion = "1.0",
        Exam = new(5),
        Text = "drops at the gate",
    };

    private static readonly PatientEntered Known = new()
    {
        Id = new(8),
        Who = new("MK"),
        At = new(1_000),
        ProgramVersion = "1.0",
        Patient = Patient,
        Details = new() { Name = "Pilot Twelve", BirthDate = new(1980, 2, 29) },
    };

    private static byte[] Seal(JournalEntry entry, TestKeys keys)
    {
        var output = new ArrayBufferWriter<byte>();
        EntryCodec.Encode(entry, keys.Prepare(entry), output);
        return output.WrittenSpan.ToArray();
    }

    private static UnsealedEntry Open(byte[] bytes, ISubjectKeys keys)
    {
        Assert.True(EntryCodec.TryDecode(bytes, keys, out var read, out var refusal), refusal?.Message);
        return read!;
    }

    [Theory]
    [MemberData(nameof(EntryCodecTests.Kinds), MemberType = typeof(EntryCodecTests))]
    public void An_entry_of_any_kind_reads_back_with_its_keys(string kind) =>
        EntryGen
            .ByKind.Single(pair => pair.Key.Name == kind)
            .Value.Sample(
                entry =>
                {
                    var keys = new TestKeys();
                    var read = Open(Seal(entry, keys), keys);
                    Assert.Equal(entry, read.Entry);
                    Assert.Empty(read.Unreadable.Items);
                },
                iter: 100
            );

    [Theory]
    [MemberData(nameof(EntryCodecTests.Kinds), MemberType = typeof(EntryCodecTests))]
    public void An_entry_of_any_kind_is_read_without_its_keys_and_then_names_nobody(string kind) =>
        EntryGen
            .ByKind.Single(pair => pair.Key.Name == kind)
            .Value.Sample(
                entry =>
                {
                    var keys = new TestKeys();
                    var bytes = Seal(entry, keys);
                    foreach (var patient in SealingNeeds.Of(entry).Patients)
                        keys.Destroyed.Add(keys.SlotOf(patient));
                    keys.Destroyed.Add(KeySlot.OfText(0));
                    var read = Open(bytes, keys);
                    Assert.Empty(read.Unreadable.Items);
                    Assert.All(SealingNeeds.Of(read.Entry).Patients, left => Assert.True(SealedNumbers.IsErased(left)));
                    Assert.False(SealingNeeds.Of(read.Entry).HasText);
                },
                iter: 100
            );

    [Fact]
    public void What_is_sealed_stands_nowhere_in_the_bytes()
    {
        var keys = new TestKeys();
        var bytes = Encoding.Latin1.GetString([.. Seal(Known, keys), .. Seal(Note, keys)]);
        Assert.DoesNotContain("Q-1001", bytes, StringComparison.Ordinal);
        Assert.DoesNotContain("Pilot", bytes, StringComparison.Ordinal);
        Assert.DoesNotContain("drops", bytes, StringComparison.Ordinal);
    }

    [Fact]
    public void A_damaged_key_is_told_as_unreadable_and_never_as_erased()
    {
        var keys = new TestKeys();
        var bytes = Seal(Known, keys);
        keys.Damaged.Add(keys.SlotOf(Patient));
        var read = Open(bytes, keys);
        Assert.Equal(keys.SlotOf(Patient), Assert.Single(read.Unreadable));
        Assert.Equal("unreadable-1", ((PatientEntered)read.Entry).Patient.Value);
        Assert.Null(((PatientEntered)read.Entry).Details);
    }

    [Fact]
    public void Each_flipped_bit_of_a_sealed_entry_is_refused_or_told_as_unreadable()
    {
        var keys = new TestKeys();
        var bytes = Seal(Note, keys);
        for (var bit = 0; bit < bytes.Length * 8; bit++)
        {
            bytes[bit / 8] ^= (byte)(1 << (bit % 8));
            if (EntryCodec.TryDecode(bytes, keys, out var read, out _))
            {
                // What the chain finds first is found here as well: open and sealed part belong together.
                Assert.NotEmpty(read!.Unreadable.Items);
                Assert.Null((read.Entry as NoteEntered)?.Text);
            }

            bytes[bit / 8] ^= (byte)(1 << (bit % 8));
        }
    }

    [Fact]
    public void A_reason_that_concerns_two_patients_goes_with_either()
    {
        var merged = new PatientsMerged
        {
            Id = new(9),
            Who = new("AD"),
            At = new(1_000),
            ProgramVersion = "1.0",
            Kept = Patient,
            Merged = new("Q-1004"),
            IsDespiteBirthDates = false,
            Reason = "entered twice",
        };
        foreach (var gone in new[] { merged.Kept, merged.Merged })
        {
            var keys = new TestKeys();
            var bytes = Seal(merged, keys);
            keys.Destroyed.Add(keys.SlotOf(gone));
            var read = (PatientsMerged)Open(bytes, keys).Entry;
            Assert.Null(read.Reason);
            Assert.Equal(gone == merged.Kept, SealedNumbers.IsErased(read.Kept));
            Assert.Equal(gone == merged.Merged, SealedNumbers.IsErased(read.Merged));
        }
    }

    [Fact]
    public void Of_a_days_list_only_the_erased_patient_goes()
    {
        var list = new DayListEntered
        {
            Id = new(10),
            Who = new("AD"),
            At = new(1_000),
            ProgramVersion = "1.0",
            Date = new(2026, 11, 2),
            Items =
            [
                new() { Patient = Patient, MinuteOfDay = 480 },
                new() { Patient = new("Q-1002"), MinuteOfDay = 490 },
            ],
            SourceName = "today.csv",
        };
        var keys = new TestKeys();
        var bytes = Seal(list, keys);
        keys.Destroyed.Add(keys.SlotOf(Patient));
        var read = (DayListEntered)Open(bytes, keys).Entry;
        Assert.Equal(["erased-1", "Q-1002"], read.Items.Select(item => item.Patient.Value));
        Assert.Equal(480, read.Items[0].MinuteOfDay);
    }

    [Fact]
    public void A_sealed_part_that_was_moved_to_another_entry_does_not_open_there()
    {
        var keys = new TestKeys();
        var prepared = keys.Prepare(Note);
        byte[] Sealed(NoteEntered note)
        {
            var output = new ArrayBufferWriter<byte>();
            EntryCodec.Encode(note, prepared, output);
            return output.WrittenSpan.ToArray();
        }

        var one = Sealed(Note);
        var other = Sealed(Note with { Exam = new(6) });
        // Kind, version, form and length are a byte each; the open part follows.
        var part = 4 + one[3];
        var read = Open([.. other[..part], .. one[part..]], keys);
        Assert.Null(((NoteEntered)read.Entry).Text);
        Assert.NotEmpty(read.Unreadable.Items);
    }
}
