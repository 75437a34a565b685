using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Keys;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// Reads the keys of what is sealed from docs/journal.md ("Sealed parts") alone, out of the files that are left and with the master keys that
/// are at hand at the end.
/// </summary>
internal sealed class OwnSubjectKeys : ISubjectKeys
{
    private const int HeadBytes = 2048;
    private const int SlotLength = 64;
    private readonly byte[] patients;
    private readonly byte[] texts;
    private readonly byte[]? wrapping;
    private readonly byte[]? tagKey;

    private OwnSubjectKeys(byte[] patients, byte[] texts, byte[]? fileKey)
    {
        (this.patients, this.texts) = (patients, texts);
        wrapping = fileKey is null ? null : Derived(fileKey, "wrapping");
        tagKey = fileKey is null ? null : Derived(fileKey, "patients' numbers");
    }

    /// <summary>Whether there are such keys, and they can be opened.</summary>
    public bool CanBeOpened => wrapping is not null;

    /// <summary>Reads the files; none where nothing was ever sealed.</summary>
    public static OwnSubjectKeys Of(VoyageWorld world)
    {
        byte[] File(string name) =>
            world.Disk.Paths.Contains($"{world.Folder.DataFolder}/subject-keys/{name}")
                ? world.Disk.Content($"{world.Folder.DataFolder}/subject-keys/{name}")
                : [];
        var patients = File("patients.pbk");
        return new OwnSubjectKeys(patients, File("texts.pbk"), FileKey(patients, world.Protection));
    }

    /// <summary>What stands in a slot.</summary>
    public KeyState Read(KeySlot slot, Span<byte> key)
    {
        if (Place(slot) is not { Length: SlotLength } bytes)
            return KeyState.Unreadable;
        Span<byte> all = stackalloc byte[8 + 60];
        BinaryPrimitives.WriteInt64LittleEndian(all, slot.Value);
        bytes[..60].CopyTo(all[8..]);
        if (!SHA256.HashData(all).AsSpan(0, 4).SequenceEqual(bytes[60..]))
            return KeyState.Unreadable;
        if (bytes.StartsWith("GONE"u8) && !bytes[4..60].ContainsAnyExcept((byte)0))
            return KeyState.Destroyed;
        if (!bytes.StartsWith("KEY1"u8) || wrapping is null)
            return KeyState.Unreadable;
        using var aes = Aes.Create();
        aes.SetKey(wrapping);
        aes.DecryptKeyWrapPadded(bytes.Slice(20, 40)).CopyTo(key);
        return KeyState.Present;
    }

    /// <summary>The keys that lie there for a patient's number.</summary>
    public IEnumerable<KeySlot> Find(string number)
    {
        if (tagKey is null)
            yield break;
        var tag = HMACSHA256.HashData(tagKey, Encoding.UTF8.GetBytes(number))[..16];
        for (var place = 0; ((place + 1) * SlotLength) + (2 * HeadBytes) <= patients.Length; place++)
        {
            var slot = KeySlot.OfPatient(place);
            if (Place(slot) is { } bytes && bytes.StartsWith("KEY1"u8) && bytes.Slice(4, 16).SequenceEqual(tag))
                yield return slot;
        }
    }

    /// <summary>All slots that were destroyed.</summary>
    public IEnumerable<KeySlot> Destroyed()
    {
        Span<byte> none = stackalloc byte[ISubjectKeys.KeyBytes];
        List<KeySlot> found = [];
        for (var place = 0; ((place + 1) * SlotLength) + (2 * HeadBytes) <= patients.Length; place++)
        {
            if (Read(KeySlot.OfPatient(place), none) == KeyState.Destroyed)
                found.Add(KeySlot.OfPatient(place));
        }

        for (var place = 0; (place + 1) * SlotLength <= texts.Length; place++)
        {
            if (Read(KeySlot.OfText(place), none) == KeyState.Destroyed)
                found.Add(KeySlot.OfText(place));
        }

        return found;
    }

    private ReadOnlySpan<byte> Place(KeySlot slot)
    {
        var (file, at) = slot.IsText
            ? (texts, slot.Place * SlotLength)
            : (patients, (2 * HeadBytes) + (slot.Place * SlotLength));
        return at + SlotLength <= file.Length ? file.AsSpan((int)at, SlotLength) : [];
    }

    private static byte[]? FileKey(byte[] patients, Protection masters)
    {
        byte[]? key = null;
        var latest = 0L;
        for (var at = 0; at + HeadBytes <= Math.Min(patients.Length, 2 * HeadBytes); at += HeadBytes)
        {
            var copy = patients.AsSpan(at, HeadBytes);
            var generation = BinaryPrimitives.ReadInt64LittleEndian(copy[16..]);
            if (
                generation <= latest
                || !copy.StartsWith("PBSUBKEY"u8)
                || !SHA256.HashData(copy[..^32]).AsSpan().SequenceEqual(copy[^32..])
            )
                continue;
            latest = generation;
            var stored = copy.Slice(48, BinaryPrimitives.ReadInt32LittleEndian(copy[40..]));
            key = copy[12] == 0 ? stored.ToArray() : Unwrapped(stored, masters);
        }

        return key;
    }

    private static byte[]? Unwrapped(ReadOnlySpan<byte> wrapped, Protection masters)
    {
        if (masters.Secret(new MasterKeyId(BinaryPrimitives.ReadUInt64BigEndian(wrapped[1..]))) is not { } master)
            return null;
        using var aes = Aes.Create();
        aes.SetKey(master);
        return aes.DecryptKeyWrapPadded(wrapped[9..]);
    }

    private static byte[] Derived(byte[] fileKey, string use) =>
        HKDF.DeriveKey(HashAlgorithmName.SHA256, fileKey, 32, [], Encoding.ASCII.GetBytes(use));
}
