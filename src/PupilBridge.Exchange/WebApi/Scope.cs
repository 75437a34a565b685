using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Exchange.WebApi;

/// <summary>
/// Which scope a route needs, for its description. It is the guarded desks that refuse; the walk over all routes in the tests holds the two
/// against each other.
/// </summary>
/// <param name="Name">One of <see cref="KeyScopes"/>.</param>
public sealed record Scope(string Name)
{
    /// <summary>Seeing exams and records.</summary>
    public static Scope Records { get; } = new(Roles.Records);

    /// <summary>Seeing patients.</summary>
    public static Scope Patients { get; } = new(Roles.Patients);

    /// <summary>Seeing lanes, and entering.</summary>
    public static Scope Lane { get; } = new(Roles.Lane);

    /// <summary>Seeing instruments, and switching them off.</summary>
    public static Scope Instruments { get; } = new(Roles.Instruments);
}

/// <summary>Describes routes.</summary>
public static class RouteWords
{
    /// <summary>Says what a route gives, and which scope opens it.</summary>
    /// <param name="route">The route.</param>
    /// <param name="summary">What it gives, in a sentence.</param>
    /// <param name="scope">The scope.</param>
    public static RouteHandlerBuilder Says(this RouteHandlerBuilder route, string summary, Scope scope)
    {
        ArgumentNullException.ThrowIfNull(scope);
        return route
            .WithSummary(summary)
            .WithDescription($"Scope: {scope.Name}.")
            .WithMetadata(scope)
            .ProducesProblem(StatusCodes.Status401Unauthorized)
            .ProducesProblem(StatusCodes.Status403Forbidden);
    }
}
