using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Whoever changes something must bring the token of a page of this console, in the header <see cref="HeaderName"/>, so that another
/// site cannot enter things in the name of whoever is signed in.
/// </summary>
/// <remarks>
/// Without a valid token the answer is 400 and has no body: the page is out of date, and its script asks for a new one and sends the
/// same again.
/// </remarks>
internal sealed class FormTokenNeeded(IAntiforgery forms) : IEndpointFilter
{
    /// <summary>The header that carries the token.</summary>
    public const string HeaderName = "X-PupilBridge-Form";

    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        // A program's key is sent on purpose; there is no page whose token it could bring along.
        KeySignIn.IsKey(context.HttpContext.User)
        || await forms.IsRequestValidAsync(context.HttpContext).ConfigureAwait(false)
            ? await next(context).ConfigureAwait(false)
            : TypedResults.BadRequest();
}
