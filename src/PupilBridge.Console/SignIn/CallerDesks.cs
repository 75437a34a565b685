using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>The desks as the caller of the request at hand may use them. Pages have no other way to anything.</summary>
public sealed class CallerDesks
{
    private readonly GuardedDesk guarded;

    /// <summary>Guards the desks for the caller of a request.</summary>
    /// <param name="desks">The desks.</param>
    /// <param name="requests">The request at hand.</param>
    public CallerDesks(ConsoleDesks desks, IHttpContextAccessor requests)
    {
        ArgumentNullException.ThrowIfNull(desks);
        ArgumentNullException.ThrowIfNull(requests);
        Caller = CallerContext.Current(requests.HttpContext);
        guarded = new GuardedDesk(desks.Clinic, desks.Lanes, desks.Records, Caller);
    }

    /// <summary>Who calls.</summary>
    public Caller Caller { get; }

    /// <summary>Entries, instruments.</summary>
    public IClinicDesk Clinic => guarded;

    /// <summary>Lanes.</summary>
    public ILaneDesk Lanes => guarded;

    /// <summary>Patients, exams, review.</summary>
    public IRecordDesk Records => guarded;

    /// <summary>Whether the caller may see pages of a policy.</summary>
    /// <param name="policy">One of the names of <see cref="Roles"/>.</param>
    public bool May(string policy) => Caller.May(policy);
}
