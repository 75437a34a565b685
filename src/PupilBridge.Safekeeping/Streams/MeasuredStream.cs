using System.Security.Cryptography;

namespace PupilBridge.Safekeeping.Streams;

/// <summary>Counts and hashes what goes through to, or comes from, another stream, which is left open.</summary>
/// <param name="below">The other stream.</param>
/// <param name="cancel">Ends the work between two buffers.</param>
internal sealed class MeasuredStream(Stream below, CancellationToken cancel = default) : ForwardStream
{
    private readonly IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>How many bytes went through.</summary>
    public long Count { get; private set; }

    /// <summary>SHA-256 of what went through, in hexadecimal digits; asked once, at the end.</summary>
    public string Sha256() => Convert.ToHexStringLower(hash.GetHashAndReset());

    public override bool CanRead => below.CanRead;

    public override bool CanWrite => below.CanWrite;

    public override void Flush() => below.Flush();

    public override int Read(Span<byte> buffer)
    {
        cancel.ThrowIfCancellationRequested();
        var count = below.Read(buffer);
        Add(buffer[..count]);
        return count;
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        cancel.ThrowIfCancellationRequested();
        below.Write(buffer);
        Add(buffer);
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            hash.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Add(ReadOnlySpan<byte> bytes)
    {
        hash.AppendData(bytes);
        Count += bytes.Length;
    }
}
