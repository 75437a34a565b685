using PupilBridge.Clinic;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Erasing.Proposals;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.Hosting;

/// <summary>What the console goes through to do and see anything. It knows no other way.</summary>
/// <param name="Clinic">Entries, and what commands can see as well.</param>
/// <param name="Lanes">Lanes as they change.</param>
/// <param name="Records">Patients, exams, review and history.</param>
/// <param name="Bench">The service bench.</param>
/// <param name="People">Who may sign in.</param>
public sealed record ConsoleDesks(
    IClinicDesk Clinic,
    ILaneDesk Lanes,
    IRecordDesk Records,
    IBenchDesk Bench,
    IPeopleDesk People
)
{
    /// <summary>Erasures that one administrator proposed and another one is to confirm.</summary>
    public IErasureProposals Proposals { get; init; } = NoErasureProposals.Instance;

    /// <summary>Where it is noted who saw what.</summary>
    public IAuditLog Audit { get; init; } = NoAuditLog.Instance;
}
