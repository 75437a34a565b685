using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>The desks as the caller of the request at hand may use them. Pages have no other way to anything.</summary>
public sealed class CallerDesks
{
    private readonly AuditedDesk noted;
    private readonly GuardedDesk guarded;

    /// <summary>Guards the desks for the caller of a request.</summary>
    /// <param name="desks">The desks.</param>
    /// <param name="requests">The request at hand.</param>
    /// <param name="services">Gives what only this folder knows: sessions and who was signed in here before.</param>
    public CallerDesks(ConsoleDesks desks, IHttpContextAccessor requests, IServiceProvider services)
    {
        ArgumentNullException.ThrowIfNull(desks);
        ArgumentNullException.ThrowIfNull(requests);
        var context = requests.HttpContext;
        Caller = CallerContext.Current(context);
        // Whoever is not signed in sends nothing for anybody, and a program only for itself.
        var before =
            Caller == CallerContext.Nobody || Caller.Scopes is not null
                ? []
                : services.GetRequiredService<Seat>().Earlier(context);
        var reader = ReaderOf(context, Caller);
        var time = services.GetRequiredService<TimeProvider>();
        noted = new AuditedDesk(desks.Clinic, desks.Lanes, desks.Records, desks.Bench, desks.Audit, reader, time);
        guarded = new GuardedDesk(noted, noted, noted, noted, Caller, before)
        {
            Audit = desks.Audit,
            Refusal = _ => reader.Note(AuditWhat.NotAllowed, time.GetUtcNow()),
        };
        Proposals = new GuardedProposals(
            desks.Proposals,
            noted,
            Caller,
            desks.Audit,
            reader,
            time,
            who =>
                desks.People.Find(who) is { IsEnabled: true } one && new Caller(one.Who, one.Roles).May(Roles.Erasing)
        );
        Lanes = services.GetRequiredService<SessionDoor>().Of(context) is { } session
            ? new WatchedLanes(guarded, services.GetRequiredService<SessionBook>(), session)
            : guarded;
    }

    /// <summary>Who calls.</summary>
    public Caller Caller { get; }

    /// <summary>Entries, instruments.</summary>
    public IClinicDesk Clinic => guarded;

    /// <summary>Lanes.</summary>
    public ILaneDesk Lanes { get; }

    /// <summary>Patients, exams, review.</summary>
    public IRecordDesk Records => guarded;

    /// <summary>The service bench.</summary>
    public IBenchDesk Bench => guarded;

    /// <summary>Proposals of erasures.</summary>
    public GuardedProposals Proposals { get; }

    /// <summary>Lists who saw what.</summary>
    /// <param name="search">Which notes.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    public Task<AuditPage> ListAuditAsync(AuditSearch search, CancellationToken cancellation) =>
        guarded.ListAuditAsync(() => noted.ListAuditAsync(search, cancellation));

    /// <summary>Who reads by a request, as the audit stream names them.</summary>
    internal static AuditReader ReaderOf(HttpContext? context, Caller caller) =>
        new(
            caller.Who,
            context is not null && ApiAnswer.IsApi(context.Request) ? AuditWay.Api : AuditWay.Page,
            context?.Request.Path.Value,
            context?.Connection.RemoteIpAddress?.ToString()
        );

    /// <summary>Whether the caller may see pages of a policy.</summary>
    /// <param name="policy">One of the names of <see cref="Roles"/>.</param>
    public bool May(string policy) => Caller.May(policy);
}
