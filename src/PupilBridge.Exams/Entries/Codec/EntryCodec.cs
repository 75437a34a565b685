using System.Buffers;
using System.Collections.Frozen;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>
/// Entries to bytes and back. An encoded entry is: kind, version, form of the protected part, length of the open part,
/// the open part, the protected part. Equal entries give equal bytes; what an earlier version wrote is lifted when it is
/// read and never rewritten. Safe for several threads at once.
/// </summary>
public static class EntryCodec
{
    private static readonly EntryFormat[] Formats =
    [
        .. SystemFormats.All,
        .. InstrumentFormats.All,
        .. PersonFormats.All,
        .. MergingFormats.All,
        .. ErasureFormats.All,
        .. ExamFormats.All,
        .. SigningFormats.All,
        .. SendingFormats.All,
        .. AccessFormats.All,
        .. BenchFormats.All,
    ];

    private static readonly FrozenDictionary<Type, EntryFormat> ByType = Formats.ToFrozenDictionary(f => f.EntryType);

    private static readonly FrozenDictionary<int, EntryFormat> ByKind = Formats.ToFrozenDictionary(f => (int)f.Kind);

    /// <summary>Writes an entry.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="output">Where its bytes go.</param>
    /// <exception cref="ArgumentException">The entry is of a kind that has no place in the journal.</exception>
    public static void Encode(JournalEntry entry, IBufferWriter<byte> output)
    {
        ArgumentNullException.ThrowIfNull(output);
        var format = FormatOf(entry);
        var open = new EntryWriter();
        format.WriteOpen(open, entry);
        var secret = new EntryWriter();
        var form = format.WriteProtected(secret, entry);

        output.Write(Before(format, form, open).Written);
        output.Write(secret.Written);
    }

    /// <summary>Writes an entry with everything sealed that says or may say who a patient is.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="keys">The keys for all that <see cref="SealingNeeds"/> names; null to write it as it is.</param>
    /// <param name="output">Where its bytes go.</param>
    /// <exception cref="ArgumentException">The entry is of a kind that has no place in the journal, or a key is missing.</exception>
    public static void Encode(JournalEntry entry, PreparedKeys? keys, IBufferWriter<byte> output)
    {
        if (keys is null || SealedFields.Of(entry) is not { Count: > 0 } fields)
        {
            Encode(entry, output);
            return;
        }

        ArgumentNullException.ThrowIfNull(output);
        var format = FormatOf(entry);
        var open = new EntryWriter();
        format.WriteOpen(open, SealedPart.Outside(entry, fields, keys));
        var bytes = Before(format, ProtectionForm.Sealed, open);
        var part = new EntryWriter();
        SealedPart.Write(part, bytes.Written, entry, fields, keys);
        output.Write(bytes.Written);
        output.Write(part.Written);
    }

    /// <summary>Writes an entry into an array of its own.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>Its bytes.</returns>
    public static byte[] Encode(JournalEntry entry)
    {
        var output = new ArrayBufferWriter<byte>(160);
        Encode(entry, output);
        return output.WrittenSpan.ToArray();
    }

    /// <summary>Reads an entry.</summary>
    /// <param name="bytes">All of its bytes and nothing more.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="EntryRefusedException">The bytes are damaged, or written by a newer version.</exception>
    public static JournalEntry Decode(ReadOnlySpan<byte> bytes) =>
        TryDecode(bytes, out var entry, out var refusal) ? entry! : throw new EntryRefusedException(refusal!);

    /// <summary>Reads an entry, or says why not; never throws, whatever the bytes are. What is sealed in it stays unreadable.</summary>
    /// <param name="bytes">All of its bytes and nothing more.</param>
    /// <param name="entry">The entry, if it could be read.</param>
    /// <param name="refusal">Why not, if it could not.</param>
    /// <returns>Whether it could be read.</returns>
    public static bool TryDecode(ReadOnlySpan<byte> bytes, out JournalEntry? entry, out EntryRefusal? refusal)
    {
        var read = TryDecode(bytes, NoSubjectKeys.Instance, out var unsealed, out refusal);
        entry = unsealed?.Entry;
        return read;
    }

    /// <summary>Reads an entry with the keys of what is sealed in it, or says why not; never throws for what the bytes are.</summary>
    /// <param name="bytes">All of its bytes and nothing more.</param>
    /// <param name="keys">The keys.</param>
    /// <param name="unsealed">The entry, if it could be read.</param>
    /// <param name="refusal">Why not, if it could not.</param>
    /// <returns>Whether it could be read.</returns>
    public static bool TryDecode(
        ReadOnlySpan<byte> bytes,
        ISubjectKeys keys,
        out UnsealedEntry? unsealed,
        out EntryRefusal? refusal
    )
    {
        ArgumentNullException.ThrowIfNull(keys);
        var kind = 0;
        var version = 0;
        unsealed = null;
        refusal = null;
        try
        {
            var reader = new EntryReader(bytes);
            kind = reader.Count(int.MaxValue);
            version = reader.Count(int.MaxValue);
            refusal = RefuseHead(kind, version, bytes.Length);
            if (refusal is not null)
                return false;
            var form = reader.Count(int.MaxValue);
            if (form > (int)ProtectionForm.Sealed)
            {
                refusal = UnknownProtection(kind, version);
                return false;
            }

            unsealed = ReadBody(ByKind[kind], version, (ProtectionForm)form, bytes, ref reader, keys);
            return true;
        }
        catch (Exception e) when (e is FormatException or ArgumentException or OverflowException)
        {
            refusal = Damaged(kind, version, bytes.Length, e.Message);
            return false;
        }
    }

    /// <summary>The kind of an encoded entry, without reading the rest of it.</summary>
    /// <param name="bytes">Its bytes.</param>
    /// <returns>Null where no kind can be read.</returns>
    public static EntryKind? KindOf(ReadOnlySpan<byte> bytes)
    {
        try
        {
            return (EntryKind)new EntryReader(bytes).Count(int.MaxValue);
        }
        catch (FormatException)
        {
            return null;
        }
    }

    private static UnsealedEntry ReadBody(
        EntryFormat format,
        int version,
        ProtectionForm form,
        ReadOnlySpan<byte> bytes,
        ref EntryReader reader,
        ISubjectKeys keys
    )
    {
        var isSealed = form == ProtectionForm.Sealed;
        if (!isSealed && form == ProtectionForm.None != !IsProtected(format))
            throw new FormatException("its protected part is not where it belongs");
        var open = reader.Take(reader.Count(int.MaxValue));
        var before = bytes[..^reader.Rest.Length];
        var parts = new EntryParts
        {
            Version = version,
            Open = new(open),
            Protected = isSealed ? default : new(reader.Rest),
            Erased = form is ProtectionForm.Erased or ProtectionForm.Sealed,
        };
        var entry = format.Read(ref parts);
        if (isSealed)
            parts.Protected = new(reader.Rest);
        var unsealed = isSealed
            ? SealedPart.Read(entry, before, ref parts.Protected, keys)
            : new UnsealedEntry(entry, [], []);
        return parts.Open.AtEnd && parts.Protected.AtEnd
            ? unsealed
            : throw new FormatException("there is more in it than belongs there");
    }

    private static EntryFormat FormatOf(JournalEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return ByType.TryGetValue(entry.GetType(), out var format)
            ? format
            : throw new ArgumentException($"{entry.GetType().Name} is no kind of journal entry.", nameof(entry));
    }

    /// <summary>All bytes of an entry before its protected part.</summary>
    private static EntryWriter Before(EntryFormat format, ProtectionForm form, EntryWriter open)
    {
        var before = new EntryWriter();
        before.Count((int)format.Kind);
        before.Count(format.Version);
        before.Count((int)form);
        before.Count(open.Written.Length);
        before.Bytes(open.Written);
        return before;
    }

    private static bool IsProtected(EntryFormat format) =>
        format.GetType().IsGenericType && format.GetType().GetGenericTypeDefinition() == typeof(ProtectedFormat<>);

    private static EntryRefusal? RefuseHead(int kind, int version, int length)
    {
        if (!ByKind.TryGetValue(kind, out var format))
        {
            return new(
                RefusalCause.UnknownKind,
                kind,
                version,
                $"A journal entry of kind {kind} is not known to this version of the program: it was written by a newer one. "
                    + "Install that version, or a later one; nothing was changed."
            );
        }

        if (version > format.Version)
        {
            return new(
                RefusalCause.NewerVersion,
                kind,
                version,
                $"A journal entry of kind {kind} ({format.Kind}) has version {version}; this program reads up to "
                    + $"{format.Version}. Install the version that wrote it, or a later one; nothing was changed."
            );
        }

        return version == 0 ? Damaged(kind, version, length, "its version is 0") : null;
    }

    private static EntryRefusal UnknownProtection(int kind, int version) =>
        new(
            RefusalCause.UnknownProtection,
            kind,
            version,
            $"The protected part of a journal entry of kind {kind} is kept in a form that this version of the program does "
                + "not know. Install the version that wrote it, or a later one; nothing was changed."
        );

    private static EntryRefusal Damaged(int kind, int version, int length, string why) =>
        new(
            RefusalCause.Damaged,
            kind,
            version,
            $"A journal entry of {length} bytes (kind {kind}, version {version}) cannot be read: {why}. "
                + "Check the journal with 'pupilbridge journal verify'."
        );
}
