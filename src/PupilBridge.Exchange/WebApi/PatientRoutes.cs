using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.WebApi;

/// <summary>Patients and their visits, and instruments.</summary>
internal static class PatientRoutes
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/patients/{patient}", ShowAsync)
            .Says("One patient.", Scope.Patients)
            .Produces<PatientView>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/patients/{patient}/visits", VisitsAsync)
            .Says("A patient's visits, the latest first, with sizes and grades.", Scope.Records)
            .Produces<PatientHistory>()
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/instruments", InstrumentsAsync)
            .Says("The instruments and the state of their lines.", Scope.Instruments)
            .Produces<InstrumentList>();
    }

    private static async Task<IResult> ShowAsync(
        HttpContext context,
        IRecordDesk desk,
        string patient,
        CancellationToken cancellation
    )
    {
        try
        {
            return await desk.ShowPatientAsync(patient, cancellation).ConfigureAwait(false) is { } found
                ? Tagged.Of(context, found)
                : ApiProblems.NoPatient(patient);
        }
        catch (EntryProblemException)
        {
            return ApiProblems.NoPatient(patient);
        }
    }

    private static async Task<IResult> VisitsAsync(
        HttpContext context,
        IRecordDesk desk,
        string patient,
        int? limit,
        CancellationToken cancellation
    )
    {
        if (Paging.Fault(limit) is { } fault)
        {
            return fault;
        }

        try
        {
            var history = await desk.HistoryAsync(patient, limit ?? Paging.Usual, cancellation).ConfigureAwait(false);
            return Tagged.Of(context, history);
        }
        catch (EntryProblemException problem)
        {
            return ApiProblems.BadQuery(problem.Message);
        }
    }

    private static async Task<IResult> InstrumentsAsync(
        HttpContext context,
        IClinicDesk desk,
        CancellationToken cancellation
    ) => Tagged.Of(context, await desk.ListInstrumentsAsync(cancellation).ConfigureAwait(false));
}
