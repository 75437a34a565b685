using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using PupilBridge.Clinic.People;

namespace PupilBridge.Exchange.WebApi;

/// <summary>The description of the web API as an OpenAPI 3.1 document, made from the routes themselves, and a page to read it by.</summary>
public static class ApiDocument
{
    /// <summary>Where the document is.</summary>
    public const string Path = "/api/v1/openapi.json";

    private const string KeyScheme = "key";

    /// <summary>Adds what makes the document.</summary>
    /// <param name="services">Where to.</param>
    public static void Add(IServiceCollection services) =>
        services.AddOpenApi(options =>
        {
            options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
            options.ShouldInclude = route =>
                route.RelativePath?.StartsWith("api/v1/", StringComparison.Ordinal) == true;
            options.AddDocumentTransformer(
                (document, _, _) =>
                {
                    Describe(document);
                    return Task.CompletedTask;
                }
            );
        });

    /// <summary>Answers with the document and the page. Neither says anything of a patient, so that nobody needs to sign in.</summary>
    /// <param name="routes">Where to.</param>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi(Path).AllowAnonymous();
        routes.MapGet("/api/v1", ApiPage.Write).ExcludeFromDescription().AllowAnonymous();
    }

    private static void Describe(OpenApiDocument document)
    {
        document.Info = new OpenApiInfo
        {
            Title = WebApiText.Words["Page.Title"],
            Version = "1",
            Description = WebApiText.Words.Get("Page.About", string.Join(", ", KeyScopes.All)),
        };
        // Whoever reads it knows where they got it from.
        document.Servers = [];
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>(StringComparer.Ordinal)
        {
            [KeyScheme] = new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = "bearer",
                Description = WebApiText.Words["Page.Key"],
            },
        };
        document.Security =
        [
            new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(KeyScheme, document)] = [] },
        ];
    }
}
