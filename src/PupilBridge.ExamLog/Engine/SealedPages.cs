using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.ExamLog;

/// <summary>
/// Pages encrypted one by one: AES-256-GCM (NIST SP 800-38D) under the exam log's own key. A block is a random nonce (12 bytes), the
/// encrypted page, and the tag (16 bytes); the associated data are the file and the place in it, so that no block can be put in the
/// place of another.
/// </summary>
/// <remarks>
/// Random nonces are good for 2³² pages under one key (SP 800-38D, 8.3): 32 TiB written. Each exam log that is made anew has a new key.
/// </remarks>
internal sealed class SealedPages(byte[] key) : PageForm
{
    private const int NonceBytes = 12;
    private const int TagBytes = 16;
    private const int PlaceBytes = 9;

    public override int BlockBytes => NonceBytes + EnginePages.PageBytes + TagBytes;

    public override void Store(EngineFile file, long index, ReadOnlySpan<byte> page, Span<byte> block)
    {
        Span<byte> place = stackalloc byte[PlaceBytes];
        WritePlace(place, file, index);
        var nonce = block[..NonceBytes];
        RandomNumberGenerator.Fill(nonce);
        // One for each page, so that several readers need no lock and nothing is left to be disposed.
        using var gcm = new AesGcm(key, TagBytes);
        gcm.Encrypt(nonce, page, block[NonceBytes..^TagBytes], block[^TagBytes..], place);
    }

    public override void Load(EngineFile file, long index, ReadOnlySpan<byte> block, Span<byte> page)
    {
        Span<byte> place = stackalloc byte[PlaceBytes];
        WritePlace(place, file, index);
        try
        {
            using var gcm = new AesGcm(key, TagBytes);
            gcm.Decrypt(block[..NonceBytes], block[NonceBytes..^TagBytes], block[^TagBytes..], page, place);
        }
        catch (AuthenticationTagMismatchException e)
        {
            throw new InvalidDataException($"page {index} of the {file} file is not as it was encrypted", e);
        }
    }

    private static void WritePlace(Span<byte> place, EngineFile file, long index)
    {
        place[0] = (byte)file;
        BinaryPrimitives.WriteInt64LittleEndian(place[1..], index);
    }
}
