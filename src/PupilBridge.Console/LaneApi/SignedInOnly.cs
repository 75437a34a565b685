using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Lets nobody in who is not signed in, and answers what the desks refuse. A script gets problem details, where a browser that asks
/// for a page is led to the sign-in page.
/// </summary>
internal sealed class SignedInOnly : IEndpointFilter
{
    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        if (context.HttpContext.User.Identity is not { IsAuthenticated: true })
        {
            context.HttpContext.Response.Headers.WWWAuthenticate = "Bearer";
            return Problems.SignedOff();
        }

        try
        {
            return await next(context).ConfigureAwait(false);
        }
        catch (NotAllowedException refused)
        {
            return Problems.NotAllowed(refused.Message);
        }
        catch (EntryProblemException problem)
        {
            return Problems.Unavailable(problem.Message);
        }
    }
}
