using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.WebUtilities;

namespace PupilBridge.Exchange.WebApi;

/// <summary>Lists a page at a time: the query's <c>limit</c> and <c>after</c>, and where the next page is in the header <c>Link</c> (RFC 8288).</summary>
public static class Paging
{
    /// <summary>The limit where none is named.</summary>
    public const int Usual = 50;

    /// <summary>The highest limit.</summary>
    public const int Most = 500;

    /// <summary>What is wrong with a limit; null if nothing is.</summary>
    /// <param name="limit">The limit; null if none is named.</param>
    public static ProblemHttpResult? Fault(int? limit) =>
        limit is < 1 or > Most ? ApiProblems.BadQuery(WebApiText.Words.Get("BadQuery.Limit", limit, Most)) : null;

    /// <summary>The place that was asked for is none.</summary>
    /// <param name="words">Why, and what to do.</param>
    public static ProblemHttpResult NoPlace(string words) => ApiProblems.BadQuery(words);

    /// <summary>Says in the header where the next page is.</summary>
    /// <param name="context">The request.</param>
    /// <param name="next">What to ask with; null at the end.</param>
    public static void Link(HttpContext context, string? next)
    {
        if (next is null)
        {
            return;
        }

        var query = context
            .Request.Query.Where(one => one.Key != "after")
            .SelectMany(one => one.Value.Select(value => KeyValuePair.Create(one.Key, value)))
            .Append(KeyValuePair.Create("after", (string?)next));
        var place = QueryHelpers.AddQueryString(context.Request.Path.ToUriComponent(), query);
        context.Response.Headers.Link = $"<{place}>; rel=\"next\"";
    }
}
