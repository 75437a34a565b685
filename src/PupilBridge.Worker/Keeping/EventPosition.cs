using PupilBridge.Instrument;

namespace PupilBridge.Worker.Keeping;

/// <summary>How far the events of one boot of one instrument are known.</summary>
/// <param name="Boot">The boot.</param>
/// <param name="Submitted">The last number given to the journal, on disk or not; 0 for none.</param>
/// <param name="Durable">The last number on disk, 0 for none; what may be acknowledged.</param>
/// <param name="Ended">Whether the journal says that this boot has ended.</param>
/// <param name="Prints">The checksums of the last events, oldest first, the last one that of <paramref name="Submitted"/>.</param>
internal sealed record EventPosition(
    BootNumber Boot,
    long Submitted,
    long Durable,
    bool Ended,
    IReadOnlyList<EventPrint> Prints
);

/// <summary>What tells an event that is sent again from another one under the same number.</summary>
/// <param name="Sequence">The event's number.</param>
/// <param name="Crc">The checksum of its line; null where the event is lost and no line is known.</param>
internal readonly record struct EventPrint(long Sequence, uint? Crc);
