using PupilBridge.Journal;
using PupilBridge.Worker.Protection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.Audit;

/// <summary>What an <see cref="AuditLog"/> is made of.</summary>
public sealed record AuditParts
{
    /// <summary>The data folder with the master keys at hand, as for the journal; the stream lies in <c>audit</c> there.</summary>
    public required JournalFolder House { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>The program's version, for the files' headers.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The disk.</summary>
    public IJournalDisk Disk { get; init; } = RealDisk.Instance;

    /// <summary>Whether new segments are encrypted, as those of the journal are; then master keys are needed.</summary>
    public bool Encrypt { get; init; }

    /// <summary>
    /// Gives the keys under which the journal seals what identifies patients; null where it seals nothing. Asked for each note that names a
    /// patient, since they are opened later than this is made. Throws <see cref="InvalidOperationException"/> while they are not open.
    /// </summary>
    public Func<SubjectKeyStore?> SubjectKeys { get; init; } = () => null;

    /// <summary>Told what whoever runs the service should know: that notes cannot be recorded, and that they can be again.</summary>
    public Action<string> Remark { get; init; } = _ => { };

    /// <summary>Bytes written ahead of the notes; a command that makes one note writes none.</summary>
    public int PreallocateBytes { get; init; } = 64 << 10;

    /// <summary>The stream's own folder, with a chain and a lock of its own.</summary>
    public JournalFolder Folder => AuditFolder.Of(House);
}
