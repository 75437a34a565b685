using System.Buffers;
using System.Collections.Frozen;

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
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(output);
        if (!ByType.TryGetValue(entry.GetType(), out var format))
            throw new ArgumentException($"{entry.GetType().Name} is no kind of journal entry.", nameof(entry));

        var open = new EntryWriter();
        format.WriteOpen(open, entry);
        var secret = new EntryWriter();
        var form = format.WriteProtected(secret, entry);

        var head = new EntryWriter();
        head.Count((int)format.Kind);
        head.Count(format.Version);
        head.Count((int)form);
        head.Count(open.Written.Length);
        output.Write(head.Written);
        output.Write(open.Written);
        output.Write(secret.Written);
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

    /// <summary>Reads an entry, or says why not; never throws, whatever the bytes are.</summary>
    /// <param name="bytes">All of its bytes and nothing more.</param>
    /// <param name="entry">The entry, if it could be read.</param>
    /// <param name="refusal">Why not, if it could not.</param>
    /// <returns>Whether it could be read.</returns>
    public static bool TryDecode(ReadOnlySpan<byte> bytes, out JournalEntry? entry, out EntryRefusal? refusal)
    {
        var kind = 0;
        var version = 0;
        entry = null;
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
            if (form > (int)ProtectionForm.Erased)
            {
                refusal = UnknownProtection(kind, version);
                return false;
            }

            entry = ReadBody(ByKind[kind], version, (ProtectionForm)form, ref reader);
            return true;
        }
        catch (Exception e) when (e is FormatException or ArgumentException or OverflowException)
        {
            refusal = Damaged(kind, version, bytes.Length, e.Message);
            return false;
        }
    }

    private static JournalEntry ReadBody(EntryFormat format, int version, ProtectionForm form, ref EntryReader reader)
    {
        if (form == ProtectionForm.None != !IsProtected(format))
            throw new FormatException("its protected part is not where it belongs");
        var open = reader.Take(reader.Count(int.MaxValue));
        var parts = new EntryParts
        {
            Version = version,
            Open = new(open),
            Protected = new(reader.Rest),
            Erased = form == ProtectionForm.Erased,
        };
        var entry = format.Read(ref parts);
        return parts.Open.AtEnd && parts.Protected.AtEnd
            ? entry
            : throw new FormatException("there is more in it than belongs there");
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
