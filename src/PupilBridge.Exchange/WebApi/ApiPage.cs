using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc.ApiExplorer;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using PupilBridge.Clinic.People;

namespace PupilBridge.Exchange.WebApi;

/// <summary>The web API as a page for people: every route with what it gives, the scope it needs and its parameters. No script, nothing from outside.</summary>
internal static class ApiPage
{
    private static readonly HtmlEncoder Html = HtmlEncoder.Default;

    public static IResult Write(IApiDescriptionGroupCollectionProvider routes)
    {
        var words = WebApiText.Words;
        var page = new StringBuilder();
        page.Append("<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>")
            .Append(Html.Encode(words["Page.Title"]))
            .Append("</title><meta name=\"viewport\" content=\"width=device-width\">")
            .Append(
                "<link rel=\"stylesheet\" href=\"/assets/css/face.css\"><link rel=\"stylesheet\" href=\"/assets/css/pages.css\">"
            )
            .Append("</head><body><main><h1>")
            .Append(Html.Encode(words["Page.Title"]))
            .Append("</h1><p>")
            .Append(Html.Encode(words.Get("Page.About", string.Join(", ", KeyScopes.All))))
            .Append("</p><p>")
            .Append(Html.Encode(words["Page.Key"]))
            .Append("</p><p><a href=\"")
            .Append(ApiDocument.Path)
            .Append("\">")
            .Append(Html.Encode(words["Page.Document"]))
            .Append("</a></p><table><thead><tr>");
        foreach (var heading in (string[])["Page.Route", "Page.Gives", "Page.Scope", "Page.Query"])
        {
            page.Append("<th scope=\"col\">").Append(Html.Encode(words[heading])).Append("</th>");
        }

        page.Append("</tr></thead><tbody>");
        var shown = routes
            .ApiDescriptionGroups.Items.SelectMany(group => group.Items)
            .Where(route => route.RelativePath?.StartsWith("api/v1/", StringComparison.Ordinal) == true)
            .OrderBy(route => route.RelativePath, StringComparer.Ordinal)
            .ThenBy(route => route.HttpMethod, StringComparer.Ordinal);
        foreach (var route in shown)
        {
            Row(page, route);
        }

        page.Append("</tbody></table></main></body></html>");
        return TypedResults.Content(page.ToString(), "text/html; charset=utf-8");
    }

    private static void Row(StringBuilder page, ApiDescription route)
    {
        var metadata = route.ActionDescriptor.EndpointMetadata;
        var query = route.ParameterDescriptions.Where(one => one.Source == BindingSource.Query).Select(one => one.Name);
        Cell(page, "th scope=\"row\"", "th", $"{route.HttpMethod} /{route.RelativePath}");
        Cell(page, "td", "td", metadata.OfType<IEndpointSummaryMetadata>().LastOrDefault()?.Summary ?? "");
        Cell(page, "td", "td", metadata.OfType<Scope>().LastOrDefault()?.Name ?? "");
        Cell(page, "td", "td", string.Join(", ", query));
        page.Append("</tr>");
    }

    private static void Cell(StringBuilder page, string open, string close, string text)
    {
        if (close == "th")
        {
            page.Append("<tr>");
        }

        page.Append('<').Append(open).Append('>').Append(Html.Encode(text)).Append("</").Append(close).Append('>');
    }
}
