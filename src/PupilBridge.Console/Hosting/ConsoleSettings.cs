using PupilBridge.Exchange.Fhir;

namespace PupilBridge.Console.Hosting;

/// <summary>How the console is served.</summary>
public sealed record ConsoleSettings
{
    /// <summary>The port that is taken when none is named.</summary>
    public const int DefaultPort = 7407;

    /// <summary>The name of the file in the data folder that tells where the running console is.</summary>
    public const string AddressFileName = "console.url";

    /// <summary>The data folder: sign-ins, cookie keys and <see cref="AddressFileName"/> lie there.</summary>
    public required string DataFolder { get; init; }

    /// <summary>The program's version, for entries and pages.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The address that is listened on. Anything but loopback needs a certificate.</summary>
    public string Address { get; init; } = "127.0.0.1";

    /// <summary>The TCP port; 0 takes any free one.</summary>
    public int Port { get; init; } = DefaultPort;

    /// <summary>Names by which browsers may call the console, besides those of loopback.</summary>
    public IReadOnlyList<string> Hosts { get; init; } = [];

    /// <summary>A certificate file (PEM) for TLS; null for plain HTTP on loopback.</summary>
    public string? CertificateFile { get; init; }

    /// <summary>The certificate's key file (PEM); null if the certificate's file holds it.</summary>
    public string? CertificateKeyFile { get; init; }

    /// <summary>The clinic's name as pages show it.</summary>
    public string ClinicName { get; init; } = "";

    /// <summary>Whether patients' names are asked for and shown.</summary>
    public bool WantsNames { get; init; } = true;

    /// <summary>After how many years without a visit a patient is due to be erased; null where the clinic has not said.</summary>
    public int? RetentionYears { get; init; }

    /// <summary>Gives the settings about FHIR; asked when an exam first leaves by the web API, and not before.</summary>
    public Func<FhirSettings> Fhir { get; init; } = () => new FhirSettings();

    /// <summary>The language: <c>en</c>, or <c>qps-ploc</c> to try the layout with longer words.</summary>
    public string Language { get; init; } = "en";

    /// <summary>After how long without anything done a person is signed off.</summary>
    public TimeSpan IdleSignOff { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>How long after signing in a person must sign in again, whatever they do: a day of the clinic.</summary>
    public TimeSpan LongestSession { get; init; } = TimeSpan.FromHours(12);
}
