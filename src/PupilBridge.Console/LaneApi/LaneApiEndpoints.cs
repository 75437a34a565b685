using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>The part of the web API that a lane needs.</summary>
internal static class LaneApiEndpoints
{
    /// <summary>How many patients are offered for what was typed so far: as many as a lane can show.</summary>
    private const int PatientsOffered = 12;

    /// <summary>Answers below <c>/api/v1</c>.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        // Signing in is asked for by the filter, in words that a script can read, not by being led to another page.
        var api = routes.MapGroup("/api/v1").AllowAnonymous().AddEndpointFilter<SignedInOnly>();
        api.MapGet("/lanes", ListAsync);
        api.MapGet("/lanes/{serial}", LookAsync);
        api.MapGet("/lanes/{serial}/events", LaneEvents.Watch);
        api.MapGet("/patients", FindPatientsAsync);
        api.MapGet("/day-list", DayListAsync);
        api.MapPost("/lanes/{serial}/switch-off", SwitchOffAsync).AddEndpointFilter<FormTokenNeeded>();
        api.MapPost("/entries", EntryEndpoint.EnterAsync).AddEndpointFilter<FormTokenNeeded>();
    }

    private static async Task<JsonHttpResult<InstrumentList>> ListAsync(
        CallerDesks desks,
        CancellationToken cancellation
    ) =>
        TypedResults.Json(
            await desks.Clinic.ListInstrumentsAsync(cancellation).ConfigureAwait(false),
            ClinicJson.Default.InstrumentList
        );

    private static async Task<IResult> LookAsync(string serial, CallerDesks desks, CancellationToken cancellation) =>
        await desks.Lanes.LookAtLaneAsync(serial, cancellation).ConfigureAwait(false) is { } board
            ? TypedResults.Json(board, ClinicJson.Default.LaneBoard)
            : Problems.NoLane(serial);

    private static async Task<JsonHttpResult<SwitchOffOutcome>> SwitchOffAsync(
        string serial,
        CallerDesks desks,
        CancellationToken cancellation
    ) =>
        TypedResults.Json(
            await desks.Lanes.SwitchOffAsync(serial, desks.Caller.Who, cancellation).ConfigureAwait(false),
            ClinicJson.Default.SwitchOffOutcome
        );

    private static async Task<JsonHttpResult<PatientList>> FindPatientsAsync(
        string? find,
        CallerDesks desks,
        CancellationToken cancellation
    ) =>
        TypedResults.Json(
            await desks
                .Records.FindPatientsAsync(find ?? "", null, PatientsOffered, cancellation)
                .ConfigureAwait(false),
            ClinicJson.Default.PatientList
        );

    private static async Task<JsonHttpResult<LaneDayList>> DayListAsync(
        CallerDesks desks,
        TimeProvider time,
        CancellationToken cancellation
    )
    {
        var today = DateOnly.FromDateTime(time.GetLocalNow().DateTime);
        var list = await desks.Records.DayListAsync(today, cancellation).ConfigureAwait(false);
        return TypedResults.Json(LaneDayList.Of(list), LaneApiJson.Default.LaneDayList);
    }
}
