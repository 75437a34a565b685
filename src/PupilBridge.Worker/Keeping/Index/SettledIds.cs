namespace PupilBridge.Worker.Keeping.Index;

/// <summary>The ids on disk, and how far of the journal they go.</summary>
/// <param name="Ids">The ids.</param>
/// <param name="UpTo">The last sequence whose id is among them, if it has one.</param>
internal sealed record SettledIds(RecordedIds Ids, long UpTo);
