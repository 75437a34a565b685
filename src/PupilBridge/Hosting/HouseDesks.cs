using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Erasing.Proposals;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Records;
using PupilBridge.Console.Hosting;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>The desks over the running bridge: made once it is open, and the same for console, commands and watched folders.</summary>
/// <param name="service">The bridge's service; its bridge must be open when a desk is asked for.</param>
/// <param name="parts">What the bridge is made of.</param>
/// <param name="people">The people; started when a desk is asked for.</param>
/// <param name="time">The clock.</param>
/// <param name="headings">By which words a day's list names its columns.</param>
/// <param name="lanes">What lanes remind of.</param>
/// <param name="audit">Where it is noted who saw what.</param>
/// <param name="news">How the sending to other systems goes.</param>
/// <param name="bench">What the clinic set for the service bench.</param>
/// <param name="criteria">The light of the site, and the limits of the criteria.</param>
internal sealed class HouseDesks(
    BridgeService service,
    BridgeParts parts,
    PeopleService people,
    TimeProvider time,
    DayListHeadings headings,
    LaneSettings lanes,
    CriteriaSettings criteria,
    BenchSettings bench,
    SendingNews news,
    AuditLog audit
) : IDisposable
{
    private readonly Lazy<Made> made = new(() =>
        Make(new BridgeHouse(service.Bridge, isLive: true, criteria, bench), parts, time, headings, lanes, news)
    );

    /// <summary>Entries and lists.</summary>
    public ClinicDesk Clinic => made.Value.Clinic;

    /// <summary>Patients, exams, review and history.</summary>
    public RecordDesk Records => made.Value.Records;

    /// <summary>The service bench.</summary>
    public BenchDesk Bench => made.Value.Bench;

    /// <summary>What is to be sent to other systems.</summary>
    public HouseOutbox Outbox => made.Value.Outbox;

    /// <summary>All that the console goes through.</summary>
    public ConsoleDesks ForConsole =>
        new(Clinic, made.Value.Lanes, Records, Bench, people.People)
        {
            Audit = audit,
            Proposals = made.Value.Proposals,
        };

    /// <summary>The same for commands on this machine, with a note of what they show.</summary>
    public AuditedDesk ForCommands =>
        new(Clinic, made.Value.Lanes, Records, Bench, audit, AuditReader.OfCommand(), time);

    /// <inheritdoc/>
    public void Dispose()
    {
        if (made.IsValueCreated)
        {
            made.Value.Records.Dispose();
            made.Value.Proposals.Dispose();
        }
    }

    private static Made Make(
        BridgeHouse house,
        BridgeParts parts,
        TimeProvider time,
        DayListHeadings headings,
        LaneSettings lanes,
        SendingNews news
    )
    {
        var clinic = new ClinicDesk(house, news);
        return new Made(
            clinic,
            new LaneDesk(house, clinic, time, lanes),
            new RecordDesk(house, time, headings),
            new HouseOutbox(house, time),
            new BenchDesk(house, time),
            new ErasureProposals(house, parts.Options.DataFolder, time)
        );
    }

    private sealed record Made(
        ClinicDesk Clinic,
        LaneDesk Lanes,
        RecordDesk Records,
        HouseOutbox Outbox,
        BenchDesk Bench,
        ErasureProposals Proposals
    );
}
