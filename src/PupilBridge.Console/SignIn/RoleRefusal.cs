using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;
using Microsoft.AspNetCore.Http;

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
}
