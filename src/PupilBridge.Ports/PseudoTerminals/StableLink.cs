using System.Globalization;
using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>The symbolic link that plays the stable name of a device. It is replaced in one step, never missing between.</summary>
[SupportedOSPlatform("linux")]
internal static class StableLink
{
    /// <summary>Points the link at the device; does nothing without a link.</summary>
    /// <exception cref="PortOpenException">Something that is not a link is in its place, or the folder cannot be written.</exception>
    internal static void Point(string? link, string device)
    {
        if (link is null)
        {
            return;
        }

        try
        {
            if (Path.Exists(link) && new FileInfo(link).LinkTarget is null)
            {
                throw new IOException("something that is not a symbolic link is in its place; move it away");
            }

            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(link))!);
            var aside = string.Create(CultureInfo.InvariantCulture, $"{link}.{Environment.ProcessId}.new");
            File.Delete(aside);
            File.CreateSymbolicLink(aside, device);
            Errno.Checked(LinuxCalls.Rename(aside, link), "rename");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            var text = $"The link {link} to the pseudo-terminal {device} could not be made: {error.Message}.";
            throw new PortOpenException(link, PortOpenFault.Other, text, error);
        }
    }

    /// <summary>Removes the link if it still points at the device.</summary>
    internal static void Remove(string? link, string device)
    {
        try
        {
            if (link is not null && new FileInfo(link).LinkTarget == device)
            {
                File.Delete(link);
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // A link that stays behind points nowhere, which reads as "missing" too.
        }
    }
}
