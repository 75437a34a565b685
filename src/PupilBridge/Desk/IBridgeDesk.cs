using PupilBridge.Clinic;
using PupilBridge.Clinic.Audit;

namespace PupilBridge.Desk;

/// <summary>What commands can ask of the running service: the clinic's desk, what may leave the house, and what only whoever holds the files can do.</summary>
public interface IBridgeDesk : IClinicDesk, IOutgoingDesk, IBenchDesk, IFilesDesk, IAuditDesk;

/// <summary>Who saw what.</summary>
public interface IAuditDesk
{
    /// <summary>Lists notes of the audit stream, the latest first.</summary>
    /// <param name="search">Which ones.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<AuditPage> ListAuditAsync(AuditSearch search, CancellationToken cancellationToken);

    /// <summary>Notes that a command begins a backup beside the service.</summary>
    /// <param name="account">The account of this machine that runs it.</param>
    /// <param name="destination">Where it goes.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task NoteBackupAsync(string account, string destination, CancellationToken cancellationToken);
}

/// <summary>What only whoever holds the data folder can do with its files.</summary>
public interface IFilesDesk
{
    /// <summary>Compares the exam log with the journal.</summary>
    /// <param name="cancellationToken">Gives up.</param>
    Task<ExamLogVerdict> CheckExamLogAsync(CancellationToken cancellationToken);

    /// <summary>Builds the exam log anew from the journal.</summary>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<RebuiltExamLog> RebuildExamLogAsync(CancellationToken cancellationToken);

    /// <summary>The last journal entry that is on disk for certain.</summary>
    /// <param name="cancellationToken">Gives up.</param>
    Task<long> DurableAsync(CancellationToken cancellationToken);

    /// <summary>The head of the journal: the last entry that is on disk for certain, and the chain's value there.</summary>
    /// <param name="cancellationToken">Gives up.</param>
    Task<HeadOfJournal> HeadAsync(CancellationToken cancellationToken);
}

/// <summary>The head of a journal, as it goes over the socket.</summary>
/// <param name="Sequence">The last sequence number.</param>
/// <param name="Chain">The chain's value there, 64 hexadecimal digits.</param>
public sealed record HeadOfJournal(long Sequence, string Chain);

/// <summary>Whether the exam log holds what the journal says.</summary>
/// <param name="IsSame">Whether it does.</param>
/// <param name="UpTo">The last journal entry that the exam log holds.</param>
/// <param name="JournalEnd">The journal's last entry; what lies between is applied by and by.</param>
/// <param name="InExamLog">The digest of what the exam log holds; null if it cannot be read.</param>
/// <param name="FromJournal">The digest of what it must hold; null if it was not found out.</param>
/// <param name="Trouble">Why the exam log cannot be read, for a person; null if it can.</param>
public sealed record ExamLogVerdict(
    bool IsSame,
    long UpTo,
    long JournalEnd,
    string? InExamLog,
    string? FromJournal,
    string? Trouble
);

/// <summary>An exam log that was built anew.</summary>
/// <param name="UpTo">The last journal entry in it.</param>
/// <param name="Documents">How many exams, patients, instruments and look-ups it holds.</param>
/// <param name="Digest">The digest of its content.</param>
/// <param name="OldFiles">Where the files lie that were in use before; null if there were none.</param>
public sealed record RebuiltExamLog(long UpTo, long Documents, string Digest, string? OldFiles);
