using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Takes what a person entered. What becomes of it, a refusal included, is an outcome and comes with 200; other answers are about a
/// request that was no entry at all.
/// </summary>
internal static class EntryEndpoint
{
    /// <summary>The most bytes of one entry: a long day's list fits.</summary>
    internal const int MaxBytes = 256 * 1024;

    /// <summary>Reads the entry, has it recorded, and waits until it is.</summary>
    public static async Task<IResult> EnterAsync(HttpContext context, CallerDesks desks, CancellationToken cancellation)
    {
        if (!context.Request.HasJsonContentType())
        {
            return Bad(StatusCodes.Status415UnsupportedMediaType, "BadEntry.NotJson", "");
        }

        var (entry, problem) = await ReadAsync(context, cancellation).ConfigureAwait(false);
        return entry is null
            ? problem!
            : TypedResults.Json(
                await desks.Clinic.EnterAsync(entry, cancellation).ConfigureAwait(false),
                ClinicJson.Default.EntryOutcome
            );
    }

    private static async Task<(DeskEntry? Entry, IResult? Problem)> ReadAsync(
        HttpContext context,
        CancellationToken cancellation
    )
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = MaxBytes;
        }

        if (context.Request.ContentLength > MaxBytes)
        {
            return (null, Bad(StatusCodes.Status413PayloadTooLarge, "BadEntry.TooLarge", MaxBytes));
        }

        try
        {
            using var document = await JsonDocument
                .ParseAsync(context.Request.Body, cancellationToken: cancellation)
                .ConfigureAwait(false);
            var (entry, fault) = EntryReading.Read(document.RootElement);
            return entry is null ? (null, Problems.BadEntry(StatusCodes.Status400BadRequest, fault!)) : (entry, null);
        }
        catch (JsonException fault)
        {
            var line = (fault.LineNumber ?? 0) + 1;
            return (
                null,
                Bad(StatusCodes.Status400BadRequest, "BadEntry.NoJson", line, (fault.BytePositionInLine ?? 0) + 1)
            );
        }
        catch (BadHttpRequestException fault)
        {
            return (null, Bad(fault.StatusCode, "BadEntry.TooLarge", MaxBytes));
        }
    }

    private static ProblemHttpResult Bad(int status, string key, params object?[] values) =>
        Problems.BadEntry(status, ApiWords.Text.Get(key, values));
}
