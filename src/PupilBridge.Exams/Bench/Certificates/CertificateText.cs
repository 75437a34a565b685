using System.Text.Encodings.Web;
using System.Text.Json;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>
/// The text of a certificate: JSON, members in a fixed order, numbers so that they come back exactly. Equal certificates give equal texts; a
/// text that was issued is never written again.
/// </summary>
public static class CertificateText
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
    };

    /// <summary>Writes a certificate.</summary>
    /// <param name="certificate">The certificate.</param>
    /// <returns>Its text.</returns>
    public static string Write(Certificate certificate)
    {
        ArgumentNullException.ThrowIfNull(certificate);
        return JsonSerializer.Serialize(certificate, Options);
    }

    /// <summary>Reads a certificate.</summary>
    /// <param name="text">The text as it was issued.</param>
    /// <returns>The certificate.</returns>
    /// <exception cref="FormatException">The text is none, or of a newer form.</exception>
    public static Certificate Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        try
        {
            var read = JsonSerializer.Deserialize<Certificate>(text, Options) ?? throw new JsonException("it is empty");
            return read.Format <= Certificate.NewestFormat
                ? read
                : throw new JsonException($"it has form {read.Format}; this program knows {Certificate.NewestFormat}");
        }
        catch (JsonException e)
        {
            throw new FormatException(
                $"A certificate cannot be read: {e.Message}. The text itself is kept in the journal as it was issued; check the journal "
                    + "with 'pupilbridge journal verify', or use the newer program that issued it.",
                e
            );
        }
    }
}
