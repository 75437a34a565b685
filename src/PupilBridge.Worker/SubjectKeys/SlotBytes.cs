using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>What a slot of a key file is.</summary>
internal enum SlotState
{
    /// <summary>Nothing was ever written there: zeros.</summary>
    Free = 0,

    /// <summary>It holds a key.</summary>
    Key = 1,

    /// <summary>It held a key, which was destroyed.</summary>
    Destroyed = 2,

    /// <summary>Anything else.</summary>
    Damaged = 3,
}

/// <summary>
/// One slot of a key file, 64 bytes, which never lie across two sectors of a disk: what it is (4), whose it is (16, zeros for a text), the
/// wrapped key (40), and the beginning of SHA-256 over its place and all of these (4), so that a flipped bit is damage and never looks
/// like a destroyed key.
/// </summary>
internal static class SlotBytes
{
    public const int Length = 64;
    public const int TagBytes = 16;
    public const int WrappedBytes = 40;
    private const int TagAt = 4;
    private const int WrappedAt = TagAt + TagBytes;
    private const int CheckAt = WrappedAt + WrappedBytes;

    private static ReadOnlySpan<byte> KeyMark => "KEY1"u8;

    private static ReadOnlySpan<byte> GoneMark => "GONE"u8;

    public static void WriteKey(Span<byte> slot, KeySlot place, ReadOnlySpan<byte> tag, ReadOnlySpan<byte> wrapped)
    {
        slot.Clear();
        KeyMark.CopyTo(slot);
        tag.CopyTo(slot[TagAt..]);
        wrapped.CopyTo(slot[WrappedAt..]);
        Check(slot, place, slot[CheckAt..]);
    }

    public static void WriteDestroyed(Span<byte> slot, KeySlot place)
    {
        slot.Clear();
        GoneMark.CopyTo(slot);
        Check(slot, place, slot[CheckAt..]);
    }

    public static SlotState Read(ReadOnlySpan<byte> slot, KeySlot place)
    {
        if (!slot.ContainsAnyExcept((byte)0))
            return SlotState.Free;
        Span<byte> check = stackalloc byte[4];
        Check(slot, place, check);
        if (!check.SequenceEqual(slot[CheckAt..]))
            return SlotState.Damaged;
        return slot.StartsWith(KeyMark) ? SlotState.Key
            : slot.StartsWith(GoneMark) ? SlotState.Destroyed
            : SlotState.Damaged;
    }

    /// <summary>Whether it may be what a write that was cut off left of a patient's key: no key, and as much of the tag as is there fits.</summary>
    public static bool MayRemainOf(ReadOnlySpan<byte> slot, KeySlot place, ReadOnlySpan<byte> tag)
    {
        var rest = Tag(slot).TrimEnd((byte)0);
        return Read(slot, place) == SlotState.Damaged
            && slot.StartsWith(KeyMark)
            && !rest.IsEmpty
            && tag.StartsWith(rest);
    }

    public static ReadOnlySpan<byte> Tag(ReadOnlySpan<byte> slot) => slot.Slice(TagAt, TagBytes);

    public static ReadOnlySpan<byte> Wrapped(ReadOnlySpan<byte> slot) => slot.Slice(WrappedAt, WrappedBytes);

    private static void Check(ReadOnlySpan<byte> slot, KeySlot place, Span<byte> into)
    {
        Span<byte> all = stackalloc byte[8 + CheckAt];
        BinaryPrimitives.WriteInt64LittleEndian(all, place.Value);
        slot[..CheckAt].CopyTo(all[8..]);
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(all, hash);
        hash[..4].CopyTo(into);
    }
}
