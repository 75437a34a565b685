using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Certificates;

/// <summary>The words of certificates, and how moments and eyes are written in them.</summary>
internal static class CertificateTerms
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(CertificateTerms), "PupilBridge.Exchange.Text.Certificate");

    /// <summary>Right before left, as the trade writes them.</summary>
    public static IReadOnlyList<Eye> Eyes { get; } = [Eye.Right, Eye.Left];

    /// <summary>The eye in the trade's letters and in words.</summary>
    /// <param name="eye">The eye.</param>
    public static string Of(Eye eye) => Text.Of("Eye", CertificateWords.Of(eye));

    /// <summary>A moment of a certificate, in UTC: a certificate is read far from the clinic's clock.</summary>
    /// <param name="moment">ISO 8601.</param>
    public static string Moment(string moment) => Text.Get("Utc", Clock(moment));

    /// <summary>The same without saying that it is UTC.</summary>
    /// <param name="moment">ISO 8601.</param>
    public static string Clock(string moment) =>
        Read(moment).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>A moment as a certificate writes it.</summary>
    /// <param name="moment">ISO 8601.</param>
    /// <exception cref="FormatException">It is none.</exception>
    public static DateTimeOffset Read(string moment) =>
        DateTimeOffset.TryParse(
            moment,
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal,
            out var read
        )
            ? read
            : throw new FormatException(
                $"A certificate cannot be read: '{moment}' is no moment by ISO 8601. Check the journal with 'pupilbridge journal verify'."
            );
}
