using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// The protected part of an entry in its sealed form: how many pieces, and of each its number, its keys, its nonce, its length, the
/// sealed bytes, the tag. Each piece is bound to all of the entry's bytes before the protected part, and to its own number and keys.
/// </summary>
internal static class SealedPart
{
    private const int MostKeys = 2;

    /// <summary>The entry without what is sealed, as its open part is written.</summary>
    public static JournalEntry Outside(JournalEntry entry, IReadOnlyList<SealedField> fields, PreparedKeys keys)
    {
        var outside = entry;
        foreach (var field in fields)
        {
            var patients = field.Patients(entry);
            var standIn = patients.Count == 0 ? default : SealedNumbers.Erased(keys.Patients[patients[0]].Slot);
            outside = field.Without(outside, standIn);
        }

        return outside;
    }

    /// <summary>Writes the protected part.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="before">All of the entry's bytes before it.</param>
    /// <param name="entry">The entry, whole.</param>
    /// <param name="fields">What is to be sealed.</param>
    /// <param name="keys">Under which keys.</param>
    public static void Write(
        EntryWriter output,
        ReadOnlySpan<byte> before,
        JournalEntry entry,
        IReadOnlyList<SealedField> fields,
        PreparedKeys keys
    )
    {
        Span<byte> nonce = stackalloc byte[PieceCipher.NonceBytes];
        output.Count(fields.Count);
        foreach (var field in fields)
        {
            var under = KeysOf(field, entry, keys);
            var plain = new EntryWriter();
            field.Write(plain, entry);
            var head = new EntryWriter();
            head.Count(field.Number);
            head.Count(under.Count);
            foreach (var key in under)
                head.Unsigned((ulong)key.Slot.Value);
            PieceCipher.NonceOf(keys.Nonce.Span, field.Number, nonce);
            var sealedBytes = PieceCipher.Seal(
                [.. under.SelectMany(key => key.Bytes.ToArray())],
                nonce,
                plain.Written,
                [.. before, .. head.Written]
            );
            output.Bytes(head.Written);
            output.Bytes(nonce);
            output.Count(sealedBytes.Length);
            output.Bytes(sealedBytes);
        }
    }

    /// <summary>Reads the protected part and puts into the entry what its keys give.</summary>
    /// <param name="outside">The entry without what is sealed.</param>
    /// <param name="before">All of the entry's bytes before the protected part.</param>
    /// <param name="part">The protected part; read to its end.</param>
    /// <param name="keys">The keys.</param>
    /// <exception cref="FormatException">The part is damaged.</exception>
    public static UnsealedEntry Read(
        JournalEntry outside,
        ReadOnlySpan<byte> before,
        ref EntryReader part,
        ISubjectKeys keys
    )
    {
        var entry = outside;
        List<KeySlot> texts = [];
        List<KeySlot> unreadable = [];
        Span<byte> key = stackalloc byte[MostKeys * ISubjectKeys.KeyBytes];
        for (var left = part.Count(part.Rest.Length); left > 0; left--)
        {
            var head = part.Rest;
            var field = SealedFields.Find(outside, part.Count(int.MaxValue));
            var slots = new KeySlot[part.Count(MostKeys)];
            if (slots.Length == 0)
                throw new FormatException("something is sealed under no key");
            for (var i = 0; i < slots.Length; i++)
                slots[i] = new KeySlot(checked((long)part.Unsigned()));
            head = head[..^part.Rest.Length];
            var nonce = part.Take(PieceCipher.NonceBytes);
            var sealedBytes = part.Take(part.Count(part.Rest.Length));
            if (sealedBytes.Length < PieceCipher.TagBytes)
                throw new FormatException("what is sealed has no tag");
            texts.AddRange(slots.Where(slot => slot.IsText));

            var state = Gather(keys, slots, key, unreadable);
            if (state == KeyState.Present)
            {
                var plain = PieceCipher.Open(
                    key[..(slots.Length * ISubjectKeys.KeyBytes)],
                    nonce,
                    sealedBytes,
                    [.. before, .. head]
                );
                if (plain is not null)
                {
                    var reader = new EntryReader(plain);
                    entry = field.With(entry, ref reader);
                    if (!reader.AtEnd)
                        throw new FormatException("there is more sealed in it than belongs there");
                    continue;
                }

                // The key is sound and is another one: it is no erasure.
                unreadable.AddRange(slots);
                state = KeyState.Unreadable;
            }

            var standIn =
                state == KeyState.Destroyed ? SealedNumbers.Erased(slots[0]) : SealedNumbers.Unreadable(slots[0]);
            entry = field.Without(entry, standIn);
        }

        return new UnsealedEntry(entry, [.. texts.Distinct()], [.. unreadable.Distinct()]);
    }

    private static IReadOnlyList<SubjectKey> KeysOf(SealedField field, JournalEntry entry, PreparedKeys keys)
    {
        var patients = field.Patients(entry);
        return patients.Count == 0
            ?
            [
                keys.Text
                    ?? throw new ArgumentException("The entry holds a text and no key was made for it.", nameof(keys)),
            ]
            : [.. patients.Distinct().Select(patient => keys.Patients[patient])];
    }

    /// <summary>Reads the keys one behind the other. One that is destroyed is enough for what they seal to be gone.</summary>
    private static KeyState Gather(ISubjectKeys keys, KeySlot[] slots, Span<byte> into, List<KeySlot> unreadable)
    {
        var all = KeyState.Present;
        for (var i = 0; i < slots.Length; i++)
        {
            var state = keys.Read(slots[i], into.Slice(i * ISubjectKeys.KeyBytes, ISubjectKeys.KeyBytes));
            if (state == KeyState.Unreadable)
                unreadable.Add(slots[i]);
            all =
                all == KeyState.Destroyed || state == KeyState.Destroyed ? KeyState.Destroyed
                : state == KeyState.Unreadable ? KeyState.Unreadable
                : all;
        }

        return all;
    }
}
