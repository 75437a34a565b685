using Microsoft.Extensions.Configuration;
using PupilBridge.Keys.Files;

namespace PupilBridge.Configuration;

/// <summary>The settings about encryption at rest.</summary>
internal static class ProtectionOptions
{
    private const string EncryptKey = "Protection:Encrypt";
    private const string KeyFileKey = "Protection:KeyFile";
    private const string CredentialKey = "Protection:Credential";
    private const string DefaultKeyFile = "keys/master.json";

    /// <summary>The variable in which systemd names the folder of a service's credentials (systemd.exec(5), LoadCredential=).</summary>
    private const string CredentialsFolder = "CREDENTIALS_DIRECTORY";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            EncryptKey,
            "whether the journal and the exam log are encrypted; what is there already stays as it is",
            "true",
            "true or false",
            value => bool.TryParse(value, out _)
        ),
        new(
            KeyFileKey,
            "the file with the master keys, relative to the data folder; better on another disk",
            DefaultKeyFile,
            "a path",
            value => !string.IsNullOrWhiteSpace(value)
        ),
        new(
            CredentialKey,
            "the name of the credential with the master keys that systemd hands over, instead of a file",
            "",
            "a name without slashes",
            value => value is not null && !value.Contains('/', StringComparison.Ordinal) && value != ".."
        ),
    ];

    /// <summary>How files are protected, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    /// <param name="dataFolder">The data folder.</param>
    public static ProtectionSettings Read(IConfiguration configuration, string dataFolder) =>
        new(
            !"false".Equals(configuration[EncryptKey], StringComparison.OrdinalIgnoreCase),
            configuration[CredentialKey] is { Length: > 0 } credential
                ? MasterKeyFile.HandedOver(Path.Combine(Credentials(dataFolder), credential))
                : MasterKeyFile.Own(Path.Combine(dataFolder, Given(configuration[KeyFileKey]) ?? DefaultKeyFile))
        );

    /// <summary>Where credentials lie; a place with none for whoever was not started by systemd.</summary>
    private static string Credentials(string dataFolder) =>
        Given(Environment.GetEnvironmentVariable(CredentialsFolder)) ?? Path.Combine(dataFolder, "no-credentials");

    private static string? Given(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;
}
