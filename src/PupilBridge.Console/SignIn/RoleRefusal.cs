using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic.Audit;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// One who is signed in but has not the role gets a page that says so and which role is needed, not a sign-in form again.
/// </summary>
internal sealed class RoleRefusal : IAuthorizationMiddlewareResultHandler
{
    private readonly AuthorizationMiddlewareResultHandler usual = new();

    /// <summary>The policy that refused a request; null if none did.</summary>
    public static string? PolicyOf(HttpContext? context) => context?.Items[typeof(RoleRefusal)] as string;

    /// <inheritdoc/>
    public Task HandleAsync(
        RequestDelegate next,
        HttpContext context,
        AuthorizationPolicy policy,
        PolicyAuthorizationResult authorizeResult
    )
    {
        if (!authorizeResult.Forbidden)
        {
            return usual.HandleAsync(next, context, policy, authorizeResult);
        }

        context.Items[typeof(RoleRefusal)] = context
            .GetEndpoint()
            ?.Metadata.GetOrderedMetadata<IAuthorizeData>()
            .LastOrDefault(data => data.Policy is not null)
            ?.Policy;
        Note(context);
        if (ApiAnswer.IsApi(context.Request))
        {
            return ApiAnswer.WriteAsync(
                context,
                StatusCodes.Status403Forbidden,
                SignInText.Words.Get("Api.NotAllowed", context.User.Identity?.Name),
                SignInText.Words["Api.NotAllowedNext"]
            );
        }

        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return Task.CompletedTask;
    }

    /// <summary>Notes who was refused what; the refusal waits for nothing.</summary>
    private static void Note(HttpContext context)
    {
        var reader = CallerDesks.ReaderOf(context, CallerContext.Current(context));
        var now = context.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
        _ = context
            .RequestServices.GetRequiredService<ConsoleDesks>()
            .Audit.NoteAsync(reader.Note(AuditWhat.NotAllowed, now) with { Subject = PolicyOf(context) });
    }
}
