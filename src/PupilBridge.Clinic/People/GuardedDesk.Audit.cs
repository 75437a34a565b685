using PupilBridge.Clinic.Audit;

namespace PupilBridge.Clinic.People;

/// <content>The audit stream, and what is noted there of refusals.</content>
public sealed partial class GuardedDesk
{
    /// <summary>The audit stream.</summary>
    public IAuditLog Audit { get; init; } = NoAuditLog.Instance;

    /// <summary>Makes the note of a refusal; null where none is wanted.</summary>
    public Func<string, AuditNote>? Refusal { get; init; }

    /// <summary>Lists who saw what, for whoever looks after people. The list tells patients' numbers, never a name.</summary>
    /// <param name="list">The listing itself.</param>
    public Task<AuditPage> ListAuditAsync(Func<Task<AuditPage>> list) => With(Roles.People, list);

    /// <summary>Notes that something was refused. The refusal itself waits for nothing.</summary>
    private void NoteRefusal(string policy)
    {
        if (Refusal is { } note)
        {
            _ = Audit.NoteAsync(note(policy) with { Subject = policy });
        }
    }
}
