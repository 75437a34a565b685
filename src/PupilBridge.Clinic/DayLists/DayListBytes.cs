using System.Text;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The bytes of a file, taken whole, and what is wrong with them before anyone reads a line.</summary>
internal static class DayListBytes
{
    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>Reads a stream to its end, or one byte beyond what a file may have.</summary>
    public static async Task<byte[]> ReadAsync(Stream stream, CancellationToken cancellation)
    {
        using var taken = new MemoryStream();
        var piece = new byte[16_384];
        while (taken.Length <= DayListLimits.MaxBytes)
        {
            var count = await stream.ReadAsync(piece, cancellation).ConfigureAwait(false);
            if (count == 0)
            {
                break;
            }

            taken.Write(piece, 0, count);
        }

        return taken.ToArray();
    }

    /// <summary>What is wrong with a file's bytes; null if nothing is.</summary>
    public static DayListFault? Fault(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length > DayListLimits.MaxBytes)
        {
            return new DayListFault(
                null,
                null,
                ClinicText.DayLists.Get("Fault.TooLarge", DayListLimits.MaxBytes / 1000)
            );
        }

        if (bytes.IndexOf((byte)0) is >= 0 and var at)
        {
            return NoText(bytes, at);
        }

        try
        {
            Strict.GetCharCount(bytes);
            return null;
        }
        catch (DecoderFallbackException wrong)
        {
            return NoText(bytes, Math.Clamp(wrong.Index, 0, bytes.Length));
        }
    }

    private static DayListFault NoText(ReadOnlySpan<byte> bytes, int at) =>
        new(bytes[..at].Count((byte)'\n') + 1, null, ClinicText.DayLists["Fault.NoText"]);
}
