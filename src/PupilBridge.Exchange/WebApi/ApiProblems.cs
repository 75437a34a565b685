using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using PupilBridge.Clinic;

namespace PupilBridge.Exchange.WebApi;

/// <summary>What is in the way of a request, as problem details (RFC 9457) with words for a person.</summary>
internal static class ApiProblems
{
    /// <summary>There is no such exam, or no such version of it.</summary>
    public static ProblemHttpResult NoExam(long exam, int? version = null) =>
        version is null ? NotFound("NoExam", exam) : NotFound("NoVersion", exam, version);

    /// <summary>There is no such exam or version, or what identified its patient, and the signed record with it, was erased.</summary>
    public static async Task<ProblemHttpResult> NoRecordAsync(
        IRecordDesk desk,
        long exam,
        int? version,
        CancellationToken cancellation
    ) =>
        await desk.ShowRecordAsync(exam, cancellation).ConfigureAwait(false)
            is { Exam.Erasure: { } erasure, SignedVersions: var signed }
        && (version is null || signed.Any(one => one.Version == version))
            ? TypedResults.Problem(
                erasure.Words,
                statusCode: StatusCodes.Status404NotFound,
                title: WebApiText.Words["Erased.Title"]
            )
            : NoExam(exam, version);

    /// <summary>There is no such patient.</summary>
    public static ProblemHttpResult NoPatient(string patient) => NotFound("NoPatient", patient);

    /// <summary>Nothing of that name is written here.</summary>
    public static ProblemHttpResult NoExport(string name, IEnumerable<string> known) =>
        NotFound("NoExport", name, string.Join(", ", known));

    /// <summary>A record cannot leave in that form as it stands.</summary>
    public static ProblemHttpResult NotSent(string words) =>
        TypedResults.Problem(
            words,
            statusCode: StatusCodes.Status409Conflict,
            title: WebApiText.Words["NotSent.Title"]
        );

    /// <summary>A value of the query is none, or not one of those that are possible.</summary>
    public static ProblemHttpResult BadQuery(string words) =>
        TypedResults.Problem(
            words,
            statusCode: StatusCodes.Status422UnprocessableEntity,
            title: WebApiText.Words["BadQuery.Title"]
        );

    private static ProblemHttpResult NotFound(string key, params object?[] values) =>
        TypedResults.Problem(
            WebApiText.Words.Get($"{key}.Detail", values),
            statusCode: StatusCodes.Status404NotFound,
            title: WebApiText.Words[$"{key}.Title"]
        );
}
