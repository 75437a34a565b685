using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>Where the console may listen: on loopback as it is, anywhere else only under TLS.</summary>
public static class ListeningRule
{
    /// <summary>Why the console may not listen as it is set.</summary>
    /// <param name="settings">How it is served.</param>
    /// <returns>Sentences for whoever runs the service; null if it may.</returns>
    public static string? Obstacle(ConsoleSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return !IPAddress.TryParse(settings.Address, out var address)
                ? SignInText.Words.Get("Listen.NoAddress", settings.Address)
            : !IPAddress.IsLoopback(address) && settings.CertificateFile is null
                ? SignInText.Words.Get("Listen.NeedsTls", settings.Address)
            : null;
    }

    /// <summary>Reads the certificate.</summary>
    /// <param name="settings">How it is served.</param>
    /// <returns>Null if none is set.</returns>
    /// <exception cref="IOException">It cannot be read, or has no key; the message is for whoever runs the service.</exception>
    public static X509Certificate2? Certificate(ConsoleSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.CertificateFile is not { } file)
        {
            return null;
        }

        try
        {
            return X509Certificate2.CreateFromPemFile(file, settings.CertificateKeyFile);
        }
        catch (Exception fault) when (fault is CryptographicException or IOException or UnauthorizedAccessException)
        {
            throw new IOException(SignInText.Words.Get("Listen.BadCertificate", file, fault.Message), fault);
        }
    }
}
