using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace PupilBridge.Exchange.WebApi;

/// <summary>
/// Answers with an ETag (RFC 9110, section 8.8.3): the SHA-256 of the bytes. Whoever brings it along in <c>If-None-Match</c> gets 304 and no
/// body while nothing has changed.
/// </summary>
internal static class Tagged
{
    /// <summary>How values are written: names in camel case, words for fixed lists.</summary>
    public static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter() },
    };

    /// <summary>A value as JSON.</summary>
    public static IResult Of<T>(HttpContext context, T value) =>
        Of(context, JsonSerializer.SerializeToUtf8Bytes(value, Json), "application/json");

    /// <summary>Bytes as they are.</summary>
    public static IResult Of(HttpContext context, byte[] bytes, string mediaType)
    {
        var tag = new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))}\"");
        context.Response.GetTypedHeaders().ETag = tag;
        return Has(context.Request, tag)
            ? TypedResults.StatusCode(StatusCodes.Status304NotModified)
            : TypedResults.Bytes(bytes, mediaType);
    }

    // Weak comparison, as RFC 9110, section 13.1.2 asks for.
    private static bool Has(HttpRequest request, EntityTagHeaderValue tag) =>
        request
            .GetTypedHeaders()
            .IfNoneMatch.Any(one =>
                one.Equals(EntityTagHeaderValue.Any) || one.Compare(tag, useStrongComparison: false)
            );
}
