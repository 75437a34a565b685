using System.Collections.Frozen;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Net.Http.Headers;

namespace PupilBridge.Console.Assets;

/// <summary>Style sheets, scripts and pictures, out of this assembly and from nowhere else.</summary>
internal static class AssetEndpoints
{
    private const string Prefix = "asset:";

    private static readonly FrozenDictionary<string, Asset> Assets = Read();

    /// <summary>Serves them below <c>/assets</c>; a browser asks each time whether its copy still stands.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/assets/{**path}", Find).AllowAnonymous();

    private static IResult Find(string path, HttpContext context)
    {
        if (!Assets.TryGetValue(path, out var asset))
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-cache";
        return Results.Bytes(asset.Content, asset.Type, entityTag: new EntityTagHeaderValue($"\"{asset.Hash}\""));
    }

    private static FrozenDictionary<string, Asset> Read()
    {
        var assembly = typeof(AssetEndpoints).Assembly;
        return assembly
            .GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .ToFrozenDictionary(
                name => name[Prefix.Length..],
                name => Read(assembly.GetManifestResourceStream(name)!, name),
                StringComparer.Ordinal
            );
    }

    private static Asset Read(Stream stream, string name)
    {
        using (stream)
        {
            var content = new byte[stream.Length];
            stream.ReadExactly(content);
            return new Asset(content, TypeOf(name), Convert.ToHexStringLower(SHA256.HashData(content))[..32]);
        }
    }

    private static string TypeOf(string name) =>
        Path.GetExtension(name) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            ".woff2" => "font/woff2",
            var other => throw new InvalidOperationException($"No media type is known for '{other}' of {name}."),
        };

    private sealed record Asset(byte[] Content, string Type, string Hash);
}
