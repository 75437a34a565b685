using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic.People;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Whether the caller of a long answer may still have it: a key may be revoked meanwhile, a person signed off. It is asked at every beat,
/// so that such a stream ends within 10 s.
/// </summary>
internal static class CallerStill
{
    /// <summary>The question for one request.</summary>
    public static Func<bool> Of(HttpContext context)
    {
        if (KeySignIn.IsKey(context.User))
        {
            var people = context.RequestServices.GetRequiredService<IPeopleDesk>();
            var name = CallerContext.Current(context).Who;
            return () => people.ListKeys().Any(key => key.RevokedAt is null && key.Caller.Who == name);
        }

        var door = context.RequestServices.GetRequiredService<SessionDoor>();
        return door.Of(context) is null ? static () => true : () => door.Of(context) is not null;
    }
}
