using System.Buffers;
using System.Buffers.Binary;
using System.Text;

namespace PupilBridge.ExamLog;

/// <summary>
/// Writes a document's content in one fixed way of our own, each part with its length before it, so that check values and
/// digests depend on what is stored and not on how an engine stores it.
/// </summary>
internal sealed class DocumentBytes
{
    private readonly ArrayBufferWriter<byte> bytes = new(1024);

    /// <summary>Everything added so far.</summary>
    public ReadOnlySpan<byte> Written => bytes.WrittenSpan;

    /// <summary>Adds a text; null and empty are different.</summary>
    public DocumentBytes Add(string? text)
    {
        if (text is null)
        {
            AddLength(-1);
            return this;
        }

        var count = Encoding.UTF8.GetByteCount(text);
        AddLength(count);
        Encoding.UTF8.GetBytes(text, bytes.GetSpan(count));
        bytes.Advance(count);
        return this;
    }

    /// <summary>Adds a whole number.</summary>
    public DocumentBytes Add(long number)
    {
        BinaryPrimitives.WriteInt64LittleEndian(bytes.GetSpan(8), number);
        bytes.Advance(8);
        return this;
    }

    /// <summary>Adds bytes.</summary>
    public DocumentBytes Add(ReadOnlySpan<byte> part)
    {
        AddLength(part.Length);
        bytes.Write(part);
        return this;
    }

    private void AddLength(int length)
    {
        BinaryPrimitives.WriteInt32LittleEndian(bytes.GetSpan(4), length);
        bytes.Advance(4);
    }
}
