using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Text;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Stamps;

/// <summary>
/// A time-stamping authority (RFC 3161), asked over HTTP (section 3.4). All that leaves the house is SHA-256 of a head of the journal; that of
/// a few characters which nobody outside can guess.
/// </summary>
/// <param name="http">Asks; the caller sets its limits.</param>
/// <param name="address">The authority's address.</param>
public sealed class StampAuthority(HttpClient http, Uri address)
{
    private const int MaxAnswerBytes = 1 << 20;

    /// <summary>Has a head stamped.</summary>
    /// <param name="head">The head.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The token, as it is kept.</returns>
    /// <exception cref="StampException">The authority does not answer, or not with a token for this head.</exception>
    public async Task<byte[]> StampAsync(JournalPosition head, CancellationToken cancel)
    {
        var request = Rfc3161TimestampRequest.CreateFromHash(
            HashOf(head),
            HashAlgorithmName.SHA256,
            nonce: RandomNumberGenerator.GetBytes(16),
            requestSignerCertificates: true
        );
        try
        {
            using var content = new ByteArrayContent(request.Encode());
            content.Headers.ContentType = new MediaTypeHeaderValue("application/timestamp-query");
            using var answer = await http.PostAsync(address, content, cancel).ConfigureAwait(false);
            answer.EnsureSuccessStatusCode();
            await answer.Content.LoadIntoBufferAsync(MaxAnswerBytes, cancel).ConfigureAwait(false);
            var bytes = await answer.Content.ReadAsByteArrayAsync(cancel).ConfigureAwait(false);
            // It refuses an answer to another request: other hash, other nonce, or no grant.
            return request.ProcessResponse(bytes, out _).AsSignedCms().Encode();
        }
        catch (Exception fault) when (fault is HttpRequestException or CryptographicException)
        {
            throw new StampException($"The time-stamping authority at {address} gave no stamp: {fault.Message}", fault);
        }
        catch (OperationCanceledException fault) when (!cancel.IsCancellationRequested)
        {
            throw new StampException($"The time-stamping authority at {address} did not answer in time.", fault);
        }
    }

    /// <summary>What is stamped: SHA-256 of the head as it is printed, sequence, colon and chain value.</summary>
    internal static byte[] HashOf(JournalPosition head) => SHA256.HashData(Encoding.ASCII.GetBytes(head.ToString()));
}

/// <summary>A time stamp cannot be had; the journal is not concerned.</summary>
public sealed class StampException : Exception
{
    /// <inheritdoc/>
    public StampException() { }

    /// <inheritdoc/>
    public StampException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public StampException(string message, Exception innerException)
        : base(message, innerException) { }
}
