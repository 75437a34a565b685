using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.WebApi;

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
        api.MapGet("/lanes", ListAsync).Says("The instruments and the state of their lines.", Scope.Instruments);
        api.MapGet("/lanes/{serial}", LookAsync)
            .Says("One lane: its instrument and the exam on it, as it is now.", Scope.Lane)
            .Produces<LaneBoard>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/lanes/{serial}/events", LaneEvents.Watch)
            .Says("One lane as it changes: server-sent events of kind 'board', and 'beat' every 10 s.", Scope.Lane)
            .Produces(StatusCodes.Status200OK, contentType: "text/event-stream")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/events", AllEvents.Watch)
            .Says("All lanes as they change: server-sent events of kind 'lane', and 'beat' every 10 s.", Scope.Lane)
            .Produces(StatusCodes.Status200OK, contentType: "text/event-stream");
        api.MapGet("/patients", FindPatientsAsync)
            .Says(
                "Patients by the beginning of their number or of a word of their name, a page at a time.",
                Scope.Patients
            )
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/day-list", DayListAsync).Says("Today's list.", Scope.Patients);
        api.MapPost("/lanes/{serial}/switch-off", SwitchOffAsync)
            .AddEndpointFilter<FormTokenNeeded>()
            .Says("Asks an instrument to switch itself off.", Scope.Instruments);
        api.MapPost("/entries", EntryEndpoint.EnterAsync)
            .AddEndpointFilter<FormTokenNeeded>()
            .Says(
                "Records an entry, once, however often it is sent with the same id; a signature needs a person who signed in.",
                Scope.Lane
            )
            .Accepts<DeskEntry>("application/json")
            .Produces<EntryOutcome>()
            .ProducesProblem(StatusCodes.Status400BadRequest)
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType);
        WebApiRoutes.Map(api);
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

    private static async Task<Results<JsonHttpResult<PatientList>, ProblemHttpResult>> FindPatientsAsync(
        HttpContext context,
        string? find,
        string? after,
        int? limit,
        CallerDesks desks,
        CancellationToken cancellation
    )
    {
        if (Paging.Fault(limit) is { } fault)
        {
            return fault;
        }

        try
        {
            var page = await desks
                .Records.FindPatientsAsync(find ?? "", after, limit ?? PatientsOffered, cancellation)
                .ConfigureAwait(false);
            Paging.Link(context, page.Next);
            return TypedResults.Json(page, ClinicJson.Default.PatientList);
        }
        // Without a place there is nothing in the question that could be wrong.
        catch (EntryProblemException problem) when (after is not null)
        {
            return Paging.NoPlace(problem.Message);
        }
    }

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
