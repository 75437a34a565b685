using System.Security.Cryptography;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.SubjectKeys;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests.SubjectKeys;

public sealed class SubjectKeyStoreTests : IDisposable
{
    private readonly TempFolder folder = new();
    private readonly RealDisk disk = new();

    private string PatientFile => Path.Combine(folder.Path, SubjectKeyStore.FolderName, "patients.pbk");

    private static ExamOpened For(string patient) =>
        new()
        {
            Id = new(1),
            Who = new("MK"),
            At = new(1),
            ProgramVersion = "test",
            Serial = new("T-100"),
            Patient = new(patient),
        };

    private static NoteEntered Note() =>
        new()
        {
            Id = new(1),
            Who = new("MK"),
            At = new(1),
            ProgramVersion = "test",
            Exam = new(1),
            Text = "a note",
        };

    private SubjectKeyStore Create(KeyRing? masters = null) =>
        SubjectKeyStore.Create(disk, folder.Path, masters, sealedFrom: 1);

    private SubjectKeyStore Open(KeyRing? masters = null) => SubjectKeyStore.Open(disk, folder.Path, masters);

    private static (KeyState State, byte[] Key) Read(SubjectKeyStore keys, KeySlot slot)
    {
        var key = new byte[ISubjectKeys.KeyBytes];
        return (keys.Read(slot, key), key);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_key_is_the_same_after_a_restart_and_another_for_each_patient(bool isWrapped)
    {
        var masters = isWrapped ? KeyRing.Create(TimeProvider.System) : null;
        SubjectKey one;
        using (var keys = Create(masters))
        {
            one = keys.Prepare(For("Q-1001"))!.Patients.Values.Single();
            Assert.NotEqual(one.Slot, keys.Prepare(For("Q-1002"))!.Patients.Values.Single().Slot);
        }

        using var again = Open(masters);
        Assert.Equal(isWrapped, again.IsWrapped);
        var found = again.Prepare(For("Q-1001"))!.Patients.Values.Single();
        Assert.Equal(one.Slot, found.Slot);
        Assert.Equal(one.Bytes.ToArray(), found.Bytes.ToArray());
        Assert.Equal(one.Bytes.ToArray(), Read(again, one.Slot).Key);
    }

    /// <summary>As in the simulator's seeds 103 and 109: a full disk cuts the writing of a key off, and the next one lies behind it.</summary>
    [Theory]
    [InlineData(8)]
    [InlineData(30)]
    public void What_a_write_that_was_cut_off_left_of_a_key_goes_with_the_patient(int length)
    {
        using var keys = Create();
        var key = keys.Prepare(For("Q-1001"))!.Patients.Values.Single().Slot;
        var other = keys.Prepare(For("Q-1002"))!.Patients.Values.Single().Slot;
        var remains = KeySlot.OfPatient(key.Place + 1);
        Assert.NotEqual(remains, other);
        using (
            var file = disk.Open(Path.Combine(folder.Path, "subject-keys", "patients.pbk"), JournalFileMode.ReadWrite)
        )
        {
            var bytes = new byte[length];
            file.Read(bytes, 4096 + (key.Place * 64));
            file.Write(bytes, 4096 + (remains.Place * 64));
        }

        Assert.Equal([key], keys.Find(new PatientId("Q-1001")));
        Assert.Equal([key, remains], keys.FindToErase(new PatientId("Q-1001")).Order());
        Assert.Equal([other], keys.FindToErase(new PatientId("Q-1002")));
        keys.Destroy([key, remains], new JournalSequence(9));
        Assert.Empty(keys.FindToErase(new PatientId("Q-1001")));
    }

    [Fact]
    public void Keys_are_drawn_from_the_operating_systems_generator_unless_a_simulation_gives_another() =>
        Assert.Same(
            RandomNumberGenerator.Create(),
            new BridgeParts { Options = new PupilBridge.Worker.Options.BridgeOptions() }.SubjectKeyChance
        );

    [Fact]
    public void Without_the_master_key_it_does_not_open_and_says_what_to_do()
    {
        var masters = KeyRing.Create(TimeProvider.System);
        Create(masters).Dispose();
        Assert.Contains(
            "master key",
            Assert.Throws<BridgeStartException>(() => Open()).Message,
            StringComparison.Ordinal
        );
        Assert.Throws<BridgeStartException>(() => Open(KeyRing.Create(TimeProvider.System)));
    }

    [Fact]
    public void Rotation_wraps_one_key_anew_and_the_old_master_key_is_not_needed_any_more()
    {
        var old = KeyRing.Create(TimeProvider.System);
        var next = old.With(MasterKey.Create(TimeProvider.System));
        KeySlot slot;
        using (var keys = Create(old))
        {
            slot = keys.Prepare(For("Q-1001"))!.Patients.Values.Single().Slot;
            keys.WrapAnew(next);
        }

        using var again = Open(next.Keeping(new HashSet<MasterKeyId>()));
        Assert.Equal(KeyState.Present, Read(again, slot).State);
        Assert.Throws<BridgeStartException>(() => Open(old));
    }

    [Fact]
    public void Each_text_has_a_key_of_its_own_also_after_a_restart()
    {
        HashSet<KeySlot> slots = [];
        for (var run = 0; run < 3; run++)
        {
            using var keys = run == 0 ? Create() : Open();
            for (var i = 0; i < 100; i++)
                Assert.True(slots.Add(keys.Prepare(Note())!.Text!.Slot));
            Assert.All(slots, slot => Assert.Equal(KeyState.Present, Read(keys, slot).State));
        }
    }

    [Fact]
    public void Thousands_of_patients_each_find_their_own_key_again()
    {
        using var keys = Create();
        var slots = Enumerable
            .Range(1, 3000)
            .ToDictionary(n => n, n => keys.Prepare(For($"Q-{n}"))!.Patients.Values.Single().Slot);
        Assert.Equal(3000, slots.Values.Distinct().Count());
        Assert.All(slots, one => Assert.Equal(one.Value, Assert.Single(keys.Find(new PatientId($"Q-{one.Key}")))));
        Assert.Empty(keys.Find(new PatientId("Q-0")));
    }

    [Fact]
    public void A_destroyed_key_is_gone_also_after_a_restart_and_the_same_number_later_gets_another()
    {
        KeySlot patient;
        KeySlot text;
        using (var keys = Create())
        {
            patient = keys.Prepare(For("Q-1001"))!.Patients.Values.Single().Slot;
            text = keys.Prepare(Note())!.Text!.Slot;
            keys.Destroy([patient, text], new JournalSequence(9));
            Assert.Empty(keys.Find(new PatientId("Q-1001")));
        }

        using var again = Open();
        Assert.Equal(9, again.LastErasure);
        Assert.Equal(KeyState.Destroyed, Read(again, patient).State);
        Assert.Equal(KeyState.Destroyed, Read(again, text).State);
        Assert.NotEqual(patient, again.Prepare(For("Q-1001"))!.Patients.Values.Single().Slot);
    }

    [Fact]
    public void A_flipped_bit_anywhere_in_a_slot_is_damage_and_never_looks_like_a_destroyed_key()
    {
        KeySlot slot;
        using (var keys = Create())
            slot = keys.Prepare(For("Q-1001"))!.Patients.Values.Single().Slot;
        var bytes = File.ReadAllBytes(PatientFile);
        using var again = Open();
        var offset = (int)PatientSlots.OffsetOf(slot);
        for (var bit = 0; bit < SlotBytes.Length * 8; bit++)
        {
            var at = offset + (bit / 8);
            Overwrite(at, (byte)(bytes[at] ^ (1 << (bit % 8))));
            Assert.Equal(KeyState.Unreadable, Read(again, slot).State);
            Overwrite(at, bytes[at]);
        }

        Assert.Equal(KeyState.Present, Read(again, slot).State);
        Assert.Equal(KeyState.Unreadable, Read(again, KeySlot.OfPatient(1_000_000)).State);
        Assert.Equal(KeyState.Unreadable, Read(again, KeySlot.OfText(1_000_000)).State);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2048)]
    public void A_spoilt_copy_of_the_head_is_made_up_for_by_the_other(int offset)
    {
        using (var keys = Create())
            keys.Destroy([], new JournalSequence(3));
        var bytes = File.ReadAllBytes(PatientFile);
        bytes.AsSpan(offset, 512).Fill(0xAA);
        File.WriteAllBytes(PatientFile, bytes);
        using var again = Open();
        Assert.Equal(1, again.SealedFrom);
    }

    public void Dispose() => folder.Dispose();

    private void Overwrite(long offset, byte value)
    {
        using var file = new FileStream(PatientFile, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
        file.Position = offset;
        file.WriteByte(value);
    }
}
