using Microsoft.AspNetCore.Routing;

namespace PupilBridge.Exchange.WebApi;

/// <summary>
/// The part of the web API that is for other programs. It asks the desks that its host registered, which are guarded for the caller of the
/// request at hand; it has no other way to anything.
/// </summary>
public static class WebApiRoutes
{
    /// <summary>Answers below a group, whose host lets in only those who are signed in or bring a key.</summary>
    /// <param name="api">The group, at <c>/api/v1</c>.</param>
    public static void Map(RouteGroupBuilder api)
    {
        ExamRoutes.Map(api);
        ExportRoutes.Map(api);
        PatientRoutes.Map(api);
        TableRoutes.Map(api);
    }
}
