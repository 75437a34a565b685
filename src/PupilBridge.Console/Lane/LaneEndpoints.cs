using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.Lane;

/// <summary>The pages of the lane: the lane itself, and its keys.</summary>
internal static class LaneEndpoints
{
    /// <summary>The lane has a face of its own choice: light chosen for review must not light up a darkened room.</summary>
    private const string FaceCookie = "lane-face";

    /// <summary>Answers <c>/lane/{serial}</c> and <c>/lane-keys</c>.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/lane/{serial}", Lane).RequireAuthorization(Roles.Lane);
        routes.MapGet("/lane-keys", Keys).AllowAnonymous();
    }

    private static RazorComponentResult<LanePage> Lane(
        string serial,
        HttpContext context,
        ConsoleSettings settings,
        SessionDoor door,
        SessionBook book,
        IAntiforgery forms
    )
    {
        var token = forms.GetAndStoreTokens(context).RequestToken!;
        var who = context.User.Identity?.Name ?? "";
        double? left = door.Of(context) is { } session ? book.Left(session).TotalSeconds : null;
        var data = new LaneData(serial, who, settings.ProgramVersion, token, settings.WantsNames, "en", left);
        return Page<LanePage>(context, new() { [nameof(LanePage.Data)] = data });
    }

    private static RazorComponentResult<LaneKeysPage> Keys(HttpContext context) => Page<LaneKeysPage>(context, []);

    private static RazorComponentResult<T> Page<T>(HttpContext context, Dictionary<string, object?> parameters)
        where T : IComponent
    {
        context.Response.Headers.CacheControl = "no-store";
        parameters["Face"] = context.Request.Cookies[FaceCookie] == "light" ? "light" : "dark";
        return new RazorComponentResult<T>(parameters);
    }
}
