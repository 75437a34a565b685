using PupilBridge.Journal;

namespace PupilBridge.Worker.Protection;

/// <summary>Where the audit trail lies: a journal of its own, with a chain and a lock of its own, protected by the same master keys.</summary>
public static class AuditFolder
{
    /// <summary>The audit trail of a data folder.</summary>
    /// <param name="house">The data folder, with the master keys at hand.</param>
    public static JournalFolder Of(JournalFolder house)
    {
        ArgumentNullException.ThrowIfNull(house);
        return house with { DataFolder = Path.Combine(house.DataFolder, "audit") };
    }
}
