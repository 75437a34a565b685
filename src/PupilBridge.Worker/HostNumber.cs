using System.Globalization;
using System.Security.Cryptography;
using PupilBridge.Instrument;

namespace PupilBridge.Worker;

/// <summary>
/// The number by which instruments know this installation: drawn once, kept in a file, the same after every restart. An
/// instrument gives its events to one host; a new number would be another host.
/// </summary>
internal static class HostNumber
{
    /// <summary>Reads the number, or draws one and keeps it.</summary>
    /// <param name="path">The file: eight hexadecimal digits.</param>
    /// <returns>The number.</returns>
    /// <exception cref="BridgeStartException">The file cannot be read or written, or holds something else.</exception>
    public static HostId ReadOrDraw(string path)
    {
        try
        {
            return File.Exists(path) ? Read(path) : Draw(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new BridgeStartException($"The host number in {path} cannot be read or written: {e.Message}", e);
        }
    }

    private static HostId Read(string path)
    {
        var text = File.ReadAllText(path).Trim();
        if (
            text.Length == 8
            && uint.TryParse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var number)
            && number != 0
        )
        {
            return new HostId(number);
        }

        throw new BridgeStartException(
            $"The host number in {path} is '{text}'; it must be eight hexadecimal digits, not all zero. Put the old number back, "
                + "or delete the file: a new number is drawn, and instruments that the old one holds must be taken over."
        );
    }

    private static HostId Draw(string path)
    {
        Span<byte> bytes = stackalloc byte[4];
        do
        {
            RandomNumberGenerator.Fill(bytes);
        } while (BitConverter.ToUInt32(bytes) == 0);

        var host = new HostId(BitConverter.ToUInt32(bytes));
        // Complete under another name first: a number that was cut off would be another host.
        var unfinished = path + ".new";
        using (var stream = new FileStream(unfinished, FileMode.Create, FileAccess.Write))
        {
            stream.Write(System.Text.Encoding.ASCII.GetBytes($"{host}\n"));
            stream.Flush(flushToDisk: true);
        }

        File.Move(unfinished, path);
        return host;
    }
}
