using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>What was seen through one neutral-density filter.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="BeforeEye">Before which eye the filter was held.</param>
/// <param name="FilterSteps">The filter, in steps of 0.3 log units.</param>
/// <param name="Answer">What was seen.</param>
/// <param name="WithdrawnBy">The entry that took it back; null as long as it counts.</param>
public sealed record FilterStepRecord(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    Eye BeforeEye,
    int FilterSteps,
    BracketAnswer Answer,
    EntryId? WithdrawnBy
);

/// <summary>A grade on the scale of Bell 1993; the latest that was not taken back holds.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Eye">The eye of the defect.</param>
/// <param name="Grade">The grade.</param>
/// <param name="WithdrawnBy">The entry that took it back; null as long as it counts.</param>
public sealed record BellGradeRecord(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    Eye Eye,
    BellGrade Grade,
    EntryId? WithdrawnBy
);
