using System.Security.Cryptography;
using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>
/// The keys under which parts of journal entries are sealed, in two files outside the journal that may be overwritten. A key is on disk
/// before anything is sealed under it; a key that is destroyed is overwritten in its place. Nothing is held in memory but what is needed
/// for the next few texts.
/// </summary>
/// <remarks>Safe for several threads. Whoever opens it holds the data folder's lock.</remarks>
public sealed partial class SubjectKeyStore : ISubjectKeys, IDisposable
{
    /// <summary>The folder, within the data folder.</summary>
    public const string FolderName = "subject-keys";

    private readonly Lock gate = new();
    private readonly IJournalFile patientFile;
    private readonly IJournalFile textFile;
    private readonly PatientSlots patients;
    private readonly TextSlots texts;
    private readonly Aes wrapping = Aes.Create();
    private readonly byte[] tagKey;
    private readonly RandomNumberGenerator random;

    /// <summary>The patients' keys that are known to be on disk, and not only seen there.</summary>
    private readonly HashSet<KeySlot> settled = [];
    private KeyFileHead head;

    private SubjectKeyStore(
        IJournalFile patientFile,
        IJournalFile textFile,
        KeyFileHead head,
        byte[] fileKey,
        RandomNumberGenerator random
    )
    {
        this.random = random;
        this.patientFile = patientFile;
        this.textFile = textFile;
        this.head = head;
        patients = new PatientSlots(patientFile);
        texts = new TextSlots(textFile, (place, slot) => NewKey(place, default, slot));
        wrapping.SetKey(HKDF.DeriveKey(HashAlgorithmName.SHA256, fileKey, 32, [], "wrapping"u8.ToArray()));
        tagKey = HKDF.DeriveKey(HashAlgorithmName.SHA256, fileKey, 32, [], "patients' numbers"u8.ToArray());
        CryptographicOperations.ZeroMemory(fileKey);
    }

    /// <summary>The first journal entry from which on everything is sealed; 1 where nothing in the journal is plain.</summary>
    public long SealedFrom => head.SealedFrom;

    /// <summary>The last erasure of the journal that these keys have been through; 0 for none.</summary>
    public long LastErasure
    {
        get
        {
            lock (gate)
                return head.LastErasure;
        }
    }

    /// <summary>Whether the keys are themselves wrapped under a master key; otherwise they lie there as they are.</summary>
    public bool IsWrapped => head.IsWrapped;

    /// <summary>Makes or finds the keys for an entry, on disk when this returns.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>Null for an entry of which nothing is sealed.</returns>
    /// <exception cref="IOException">The key files cannot be written; nothing was sealed.</exception>
    public PreparedKeys? Prepare(JournalEntry entry)
    {
        var needs = SealingNeeds.Of(entry);
        if (needs.IsNone)
            return null;
        lock (gate)
        {
            Forget_NeedsGate(needs.Patients);
            var of = needs.Patients.ToDictionary(patient => patient, FindOrMake_NeedsGate);
            Settle_NeedsGate(of.Values);
            return new PreparedKeys(
                of.ToDictionary(one => one.Key, one => one.Value.Key),
                needs.HasText ? texts.Next() : null,
                Drawn(random, 12)
            );
        }
    }

    /// <summary>The keys of a patient's number.</summary>
    /// <param name="patient">The number.</param>
    /// <returns>None where nothing was ever sealed for it, or all of it was erased.</returns>
    public IReadOnlyList<KeySlot> Find(PatientId patient)
    {
        lock (gate)
            return patients.Find(TagOf(patient));
    }

    /// <summary>Everything that is to go when a patient's number is erased: its keys, and what a write that was cut off left of one.</summary>
    /// <param name="patient">The number.</param>
    public IReadOnlyList<KeySlot> FindToErase(PatientId patient)
    {
        lock (gate)
            return patients.FindAll(TagOf(patient));
    }

    /// <inheritdoc/>
    public KeyState Read(KeySlot slot, Span<byte> key)
    {
        Span<byte> bytes = stackalloc byte[SlotBytes.Length];
        bytes.Clear();
        lock (gate)
        {
            try
            {
                var (file, offset) = PlaceOf(slot);
                file.Read(bytes, offset);
                switch (SlotBytes.Read(bytes, slot))
                {
                    case SlotState.Destroyed:
                        return KeyState.Destroyed;
                    case SlotState.Key:
                        wrapping.DecryptKeyWrapPadded(SlotBytes.Wrapped(bytes)).CopyTo(key);
                        return KeyState.Present;
                    default:
                        return KeyState.Unreadable;
                }
            }
            catch (Exception e) when (e is CryptographicException or ArgumentException or IOException)
            {
                return KeyState.Unreadable;
            }
        }
    }

    /// <summary>
    /// Destroys keys for good: each is overwritten in its place and synced, then it is noted up to where the journal's erasures are done.
    /// Doing it again does no harm.
    /// </summary>
    /// <param name="slots">Which ones.</param>
    /// <param name="erasure">The journal entry that orders it.</param>
    /// <exception cref="IOException">The key files cannot be written; it is to be tried again.</exception>
    public void Destroy(IReadOnlyCollection<KeySlot> slots, JournalSequence erasure)
    {
        ArgumentNullException.ThrowIfNull(slots);
        Span<byte> bytes = stackalloc byte[SlotBytes.Length];
        lock (gate)
        {
            foreach (var slot in slots)
            {
                var (file, offset) = PlaceOf(slot);
                Remember_NeedsGate(slot);
                SlotBytes.WriteDestroyed(bytes, slot);
                file.Write(bytes, offset);
            }

            patientFile.Sync();
            textFile.Sync();
            if (erasure.Value > head.LastErasure)
            {
                head = head with { Generation = head.Generation + 1, LastErasure = erasure.Value };
                head.Write(patientFile);
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (gate)
        {
            patientFile.Dispose();
            textFile.Dispose();
            wrapping.Dispose();
            CryptographicOperations.ZeroMemory(tagKey);
        }
    }

    private (IJournalFile File, long Offset) PlaceOf(KeySlot slot) =>
        slot.IsText ? (textFile, TextSlots.OffsetOf(slot)) : (patientFile, PatientSlots.OffsetOf(slot));

    /// <summary>Has keys on disk before anything is sealed under them.</summary>
    private void Settle_NeedsGate(IReadOnlyCollection<(SubjectKey Key, bool IsSettled)> keys)
    {
        if (keys.All(key => key.IsSettled))
            return;
        patientFile.Sync();
        settled.UnionWith(keys.Select(key => key.Key.Slot));
    }

    private (SubjectKey Key, bool IsSettled) FindOrMake_NeedsGate(PatientId patient)
    {
        var tag = TagOf(patient);
        var key = new byte[ISubjectKeys.KeyBytes];
        var bytes = new byte[SlotBytes.Length];
        foreach (var known in patients.Find(tag))
        {
            if (Read(known, key) != KeyState.Present)
                continue;
            if (settled.Contains(known))
                return (new SubjectKey(known, key), true);
            // It may be seen and not be on disk: its sync failed, or the process died before. Then no later sync brings it there, unless
            // it is written over itself.
            patientFile.Read(bytes, PatientSlots.OffsetOf(known));
            patientFile.Write(bytes, PatientSlots.OffsetOf(known));
            return (new SubjectKey(known, key), false);
        }

        var slot = patients.FindFree(tag);
        key = NewKey(slot, tag, bytes);
        patientFile.Write(bytes, PatientSlots.OffsetOf(slot));
        return (new SubjectKey(slot, key), false);
    }

    private byte[] NewKey(KeySlot place, ReadOnlySpan<byte> tag, Span<byte> slot)
    {
        var key = Drawn(random, ISubjectKeys.KeyBytes);
        SlotBytes.WriteKey(slot, place, tag, wrapping.EncryptKeyWrapPadded(key));
        return key;
    }

    private static byte[] Drawn(RandomNumberGenerator random, int count)
    {
        var bytes = new byte[count];
        random.GetBytes(bytes);
        return bytes;
    }

    private byte[] TagOf(PatientId patient) =>
        HMACSHA256.HashData(tagKey, Encoding.UTF8.GetBytes(patient.Value))[..SlotBytes.TagBytes];
}
