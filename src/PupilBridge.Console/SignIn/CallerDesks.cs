using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>The desks as the caller of the request at hand may use them. Pages have no other way to anything.</summary>
/// <param name="desks">The desks.</param>
/// <param name="requests">The request at hand.</param>
public sealed class CallerDesks(ConsoleDesks desks, IHttpContextAccessor requests)
{
    /// <summary>Who calls.</summary>
    public Caller Caller => CallerContext.Current(requests.HttpContext);

    /// <summary>Entries, instruments.</summary>
    public IClinicDesk Clinic => desks.Clinic;

    /// <summary>Lanes.</summary>
    public ILaneDesk Lanes => desks.Lanes;

    /// <summary>Patients, exams, review.</summary>
    public IRecordDesk Records => desks.Records;

    /// <summary>Whether the caller may see pages of a policy.</summary>
    /// <param name="policy">The policy's name.</param>
    public bool May(string policy) => Caller.Has(PagePolicies.RolesOf(policy));
}
