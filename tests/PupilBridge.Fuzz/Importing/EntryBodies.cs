using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Instrument;

namespace PupilBridge.Fuzz.Importing;

/// <summary>The bytes of journal entries: refused with a reason, never an exception, or read; and what was read is written and read again as the same.</summary>
internal static class EntryBodies
{
    public static IFuzzTarget Entries() => new BodyTarget("entry", Seeds(), Read, isText: false);

    private static ulong Read(ReadOnlySpan<byte> body)
    {
        var signature = new Signature();
        if (!EntryCodec.TryDecode(body, out var entry, out var refusal))
        {
            if (refusal is null || refusal.Message.Length == 0)
                throw new Finding("An entry is refused without a word", Readable.Of(body));
            signature.Add((int)refusal.Cause);
            signature.Add(refusal.Kind & 0xFF);
            signature.Bucket(refusal.Message.Length);
            return signature.Bits;
        }

        var written = EntryCodec.Encode(entry!);
        if (
            !EntryCodec.TryDecode(written, out var again, out _)
            || !EntryCodec.Encode(again!).AsSpan().SequenceEqual(written)
        )
            throw new Finding("An entry that was read is not the same after it was written and read again", $"{entry}");
        signature.Add(entry!.GetType().Name.GetHashCode(StringComparison.Ordinal) & 0xFFFF);
        signature.Bucket(written.Length);
        return signature.Bits;
    }

    /// <summary>Some whole entries, and of every kind its head with zeros, from which the changes find their way.</summary>
    private static IEnumerable<byte[]> Seeds()
    {
        yield return EntryCodec.Encode(
            new InstrumentReported
            {
                Serial = new SerialNumber("QA-0001"),
                Boot = new BootNumber(0x8F3A11C02B77D4E9),
                Sequence = 3,
                RawLine = "EV,8F3A11C02B77D4E9,3,12,FIX,FAR*3F078512",
                HappenedAt = new(1_772_442_000_000),
                UncertaintyMilliseconds = 2,
                ArrivedAt = new(1_772_442_000_009),
            }
        );
        yield return EntryCodec.Encode(
            new LineChanged
            {
                At = new(1_772_442_000_000),
                Serial = null,
                PortName = "ttyUSB0",
                State = LineState.Lost,
                Reason = "The cable is out.",
            }
        );
        foreach (var kind in Enumerable.Range(1, 150))
        {
            foreach (var form in new byte[] { 0, 1, 2 })
            {
                List<byte> head = kind < 128 ? [(byte)kind] : [(byte)(kind & 127 | 128), 1];
                yield return
                [
                    .. head,
                    1,
                    form,
                    24,
                    .. Encoding.ASCII.GetBytes("\u0002\u0004\u0002MK\u0006Q-1001\u0003at "),
                    .. new byte[16],
                ];
            }
        }
    }
}
