using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;

namespace PupilBridge.Console.LaneApi;

/// <summary>What is in the way of a request, as problem details (RFC 9457) with words for a person.</summary>
internal static class Problems
{
    /// <summary>Nobody is signed in.</summary>
    public static ProblemHttpResult SignedOff() =>
        Of(StatusCodes.Status401Unauthorized, "SignedOff.Title", ApiWords.Text.Get("SignedOff.Detail"));

    /// <summary>The caller's roles do not allow it.</summary>
    public static ProblemHttpResult NotAllowed(string words) =>
        Of(StatusCodes.Status403Forbidden, "NotAllowed.Title", words);

    /// <summary>Nobody knows the instrument.</summary>
    public static ProblemHttpResult NoLane(string serial) =>
        Of(StatusCodes.Status404NotFound, "NoLane.Title", ApiWords.Text.Get("NoLane.Detail", serial));

    /// <summary>What was sent is no entry.</summary>
    public static ProblemHttpResult BadEntry(int status, string words) => Of(status, "BadEntry.Title", words);

    /// <summary>It cannot be done just now.</summary>
    public static ProblemHttpResult Unavailable(string words) =>
        Of(StatusCodes.Status503ServiceUnavailable, "Unavailable.Title", words);

    /// <summary>What the framework refused without words.</summary>
    public static ProblemHttpResult Of(int status, string key, params object?[] values) =>
        Of(status, $"{key}.Title", ApiWords.Text.Get($"{key}.Detail", values));

    private static ProblemHttpResult Of(int status, string title, string detail) =>
        TypedResults.Problem(detail, statusCode: status, title: ApiWords.Text[title]);
}
