using Microsoft.Extensions.Configuration;

namespace PupilBridge.Configuration;

/// <summary>The settings about time stamps of the journal's head. Without an address nobody is asked.</summary>
internal static class StampOptions
{
    private const string Address = "Stamps:Address";
    private const string Authorities = "Stamps:AuthorityFile";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            Address,
            "the address of a time-stamping authority (RFC 3161) that stamps the journal's head once a day; only a hash is sent; empty: nobody is asked",
            "",
            "empty, or an address with http or https",
            value => string.IsNullOrEmpty(value) || AddressIn(value) is not null
        ),
        new(
            Authorities,
            "a file with the certificates (PEM) of authorities whose time stamps count; empty: certificates are not judged",
            "",
            "empty, or the path of a file that exists",
            value => string.IsNullOrEmpty(value) || File.Exists(value)
        ),
    ];

    /// <summary>Who is asked; null for nobody.</summary>
    public static Uri? AuthorityOf(IConfiguration configuration) => AddressIn(configuration[Address]);

    /// <summary>The file of trusted certificates; null for none.</summary>
    public static string? AuthorityFileOf(IConfiguration configuration) =>
        configuration[Authorities] is { Length: > 0 } file ? file : null;

    private static Uri? AddressIn(string? value) =>
        Uri.TryCreate(value, UriKind.Absolute, out var address)
        && (address.Scheme == Uri.UriSchemeHttps || address.Scheme == Uri.UriSchemeHttp)
        && address.UserInfo.Length == 0
            ? address
            : null;
}
