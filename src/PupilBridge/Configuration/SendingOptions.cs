using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Configuration;

/// <summary>The settings about sending signed records to a FHIR server. Without an address nothing is sent.</summary>
internal static class SendingOptions
{
    private const string Address = "Sending:Address";
    private const string Name = "Sending:Name";
    private const string Header = "Sending:Header";
    private const string SecretFile = "Sending:SecretFile";
    private const string SecretVariable = "Sending:SecretVariable";
    private const string Identity = "Sending:Identity";
    private const string SignedSince = "Sending:SignedSince";
    private const string AtOnce = "Sending:AtOnce";
    private const string TimeoutSeconds = "Sending:TimeoutSeconds";
    private const string House = "Fhir:House";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            Address,
            "the base address of the FHIR server that signed records are sent to; empty: nothing is sent",
            "",
            "an address with https, or with http on this machine itself (127.0.0.1, ::1 or localhost)",
            value => string.IsNullOrEmpty(value) || AddressIn(value) is not null
        ),
        new(
            Name,
            "what that server is called in the journal and on pages",
            "destination",
            "1 to 64 characters",
            value => value is { Length: >= 1 and <= 64 } && !value.Any(char.IsControl)
        ),
        new(
            Header,
            "the header in which a secret goes with every request; empty for none",
            "",
            "the name of a header, such as Authorization",
            value => string.IsNullOrEmpty(value) || value.All(c => char.IsAsciiLetterOrDigit(c) || c == '-')
        ),
        new(
            SecretFile,
            "a file that holds the value of that header, such as Bearer and a token; read anew for each request",
            "",
            "the path of a file",
            value => string.IsNullOrEmpty(value) || File.Exists(value)
        ),
        new(
            SecretVariable,
            "the environment variable that holds the value of that header, where no file does",
            "",
            "the name of a variable that is set",
            value => string.IsNullOrEmpty(value) || Environment.GetEnvironmentVariable(value) is { Length: > 0 }
        ),
        new(
            Identity,
            "what of a patient's identity goes besides the clinic's number",
            "number",
            "number, or name, birth-date or both with a comma between",
            value => PartsIn(value) is not null
        ),
        new(
            SignedSince,
            "only versions signed on this day or later are sent (UTC); empty: all",
            "",
            "a date as year-month-day",
            value => string.IsNullOrEmpty(value) || DayIn(value) is not null
        ),
        new(
            AtOnce,
            "how many patients' records may be on their way at once",
            "4",
            "a whole number from 1 to 32",
            value => Number(value) is >= 1 and <= 32
        ),
        new(
            TimeoutSeconds,
            "how long one request may take, in seconds",
            "30",
            "a whole number from 1 to 600",
            value => Number(value) is >= 1 and <= 600
        ),
    ];

    /// <summary>What does not go together.</summary>
    /// <param name="configuration">The settings.</param>
    public static IEnumerable<(string Key, string Message)> Faults(IConfiguration configuration)
    {
        if (string.IsNullOrEmpty(configuration[Address]))
        {
            yield break;
        }

        if (string.IsNullOrEmpty(configuration[House]))
        {
            yield return (
                Address,
                $"{Address} is set and {House} is not; records of two houses could not be told apart at the server. Give {House} the clinic's own address."
            );
        }

        var secrets = new[] { SecretFile, SecretVariable }.Count(key => !string.IsNullOrEmpty(configuration[key]));
        if (string.IsNullOrEmpty(configuration[Header]) != (secrets == 0) || secrets > 1)
        {
            yield return (
                Header,
                $"{Header} goes with {SecretFile} or {SecretVariable}: give the header and one of the two, or none."
            );
        }
    }

    /// <summary>To whom records go, by checked settings; null for nobody.</summary>
    /// <param name="configuration">The settings.</param>
    public static SendingSettings? Read(IConfiguration configuration)
    {
        if (AddressIn(configuration[Address]) is not { } address)
        {
            return null;
        }

        return new SendingSettings
        {
            Name = configuration[Name] is { Length: > 0 } name ? name : "destination",
            Address = address,
            Header = HeaderIn(configuration),
            Identity = PartsIn(configuration[Identity]) ?? IdentityParts.Number,
            SignedSince = DayIn(configuration[SignedSince]),
            AtOnce = Number(configuration[AtOnce]) ?? 4,
            Timeout = TimeSpan.FromSeconds(Number(configuration[TimeoutSeconds]) ?? 30),
        };
    }

    private static SecretHeader? HeaderIn(IConfiguration configuration)
    {
        if (configuration[Header] is not { Length: > 0 } name)
        {
            return null;
        }

        return configuration[SecretFile] is { Length: > 0 } file
            ? new SecretHeader(name, () => File.ReadAllText(file).Trim())
            : new SecretHeader(
                name,
                () => Environment.GetEnvironmentVariable(configuration[SecretVariable] ?? "")?.Trim() ?? ""
            );
    }

    private static Uri? AddressIn(string? value) =>
        Uri.TryCreate(value, UriKind.Absolute, out var address)
        && (address.Scheme == Uri.UriSchemeHttps || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback))
        && address.UserInfo.Length == 0
        && address.Query.Length == 0
        && address.Fragment.Length == 0
            ? address
            : null;

    private static IdentityParts? PartsIn(string? value)
    {
        IdentityParts? parts = IdentityParts.Number;
        foreach (
            var word in (value ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        )
        {
            parts |= word switch
            {
                "number" => IdentityParts.Number,
                "name" => IdentityParts.Name,
                "birth-date" => IdentityParts.BirthDate,
                _ => null,
            };
        }

        return parts;
    }

    private static DateTimeOffset? DayIn(string? value) =>
        DateOnly.TryParseExact(value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? new DateTimeOffset(day.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero)
            : null;

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
