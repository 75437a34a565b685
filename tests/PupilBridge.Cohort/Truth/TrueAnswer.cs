using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Cohort.Truth;

/// <summary>What a criterion is about in one person: an eye, a light or a block, as far as it is about one.</summary>
/// <param name="Criterion">The criterion's id.</param>
/// <param name="Eye">The eye that it asks about; null where it names one itself.</param>
/// <param name="Light">The light.</param>
/// <param name="Block">The block.</param>
public readonly record struct Question(
    string Criterion,
    Eye? Eye = null,
    RoomLight? Light = null,
    Block Block = Block.None
);

/// <summary>What is true of it.</summary>
/// <param name="IsPresent">Whether what the criterion asks about is there.</param>
/// <param name="Eye">The eye that a right answer names; null where it need not name one.</param>
public readonly record struct TrueAnswer(bool IsPresent, Eye? Eye = null);
