using System.Globalization;
using System.Net;
using Microsoft.Extensions.Configuration;
using PupilBridge.Console.Hosting;
using PupilBridge.Desk;

namespace PupilBridge.Configuration;

/// <summary>The settings of the console: where it is served, for whom, and in which words.</summary>
internal static class WebSettings
{
    private const string Enabled = "Web:Enabled";
    private const string Address = "Web:Address";
    private const string Port = "Web:Port";
    private const string Hosts = "Web:Hosts";
    private const string Certificate = "Web:Certificate";
    private const string CertificateKey = "Web:CertificateKey";
    private const string Clinic = "Web:Clinic";
    private const string Names = "Web:Names";
    private const string Language = "Web:Language";
    private const string Idle = "Web:IdleSignOffMinutes";
    private const string Longest = "Web:LongestSessionHours";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(Enabled, "whether the console runs", "true", "true or false", IsBoolean),
        new(
            Address,
            "the address that the console listens on; anything but loopback needs a certificate",
            "127.0.0.1",
            "an IP address",
            value => IPAddress.TryParse(value, out _)
        ),
        new(
            Port,
            "the console's TCP port; 0 takes any free one",
            $"{ConsoleSettings.DefaultPort}",
            "a whole number from 0 to 65535",
            value => Number(value) is >= 0 and <= 65535
        ),
        new(
            Hosts,
            "names by which browsers may call the console, besides those of loopback",
            "",
            "host names with commas between",
            _ => true
        ),
        new(Certificate, "a certificate for TLS", "", "the path of a PEM file", IsFile),
        new(
            CertificateKey,
            "the certificate's key, if it is in a file of its own",
            "",
            "the path of a PEM file",
            IsFile
        ),
        new(
            Clinic,
            "the clinic's name on pages",
            "",
            "up to 80 characters",
            value => value is null or { Length: <= 80 }
        ),
        new(Names, "whether patients' names are asked for and shown", "true", "true or false", IsBoolean),
        new(
            Language,
            "the language of pages",
            "en",
            "en, or qps-ploc to try the layout with longer words",
            value => value is "en" or "qps-ploc"
        ),
        new(
            Idle,
            "after how many minutes without anything done a person is signed off",
            "10",
            "a number of minutes from 0.1 to 720",
            value => Decimal(value) is >= 0.1 and <= 720
        ),
        new(
            Longest,
            "after how many hours a person must sign in again, whatever they do",
            "12",
            "a number of hours from 0.01 to 24",
            value => Decimal(value) is >= 0.01 and <= 24
        ),
    ];

    /// <summary>How the console is served, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    /// <param name="dataFolder">The data folder.</param>
    /// <returns>Null where it is not to run.</returns>
    public static ConsoleSettings? Read(IConfiguration configuration, string dataFolder)
    {
        if ("false".Equals(configuration[Enabled], StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        var made = new ConsoleSettings { DataFolder = dataFolder, ProgramVersion = DeskHello.Own.Program };
        return made with
        {
            Address = configuration[Address] ?? made.Address,
            Port = Number(configuration[Port]) ?? made.Port,
            Hosts = (configuration[Hosts] ?? "").Split(
                ',',
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            ),
            CertificateFile = Given(configuration[Certificate]),
            CertificateKeyFile = Given(configuration[CertificateKey]),
            ClinicName = configuration[Clinic] ?? "",
            WantsNames = !"false".Equals(configuration[Names], StringComparison.OrdinalIgnoreCase),
            RetentionYears = RetentionOptions.YearsOf(configuration),
            Fhir = () => FhirOptions.Read(configuration),
            Language = configuration[Language] ?? made.Language,
            IdleSignOff = Decimal(configuration[Idle]) is { } minutes
                ? TimeSpan.FromMinutes(minutes)
                : made.IdleSignOff,
            LongestSession = Decimal(configuration[Longest]) is { } hours
                ? TimeSpan.FromHours(hours)
                : made.LongestSession,
        };
    }

    private static string? Given(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;

    private static bool IsBoolean(string? value) => bool.TryParse(value, out _);

    private static bool IsFile(string? value) => string.IsNullOrEmpty(value) || File.Exists(value);

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static double? Decimal(string? value) =>
        double.TryParse(value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
