namespace PupilBridge.Exams.Criteria;

/// <summary>
/// What a criterion says of an exam. Met means that what the criterion asks about was surely found; it is no diagnosis. Not met
/// means that it was examined and surely not found, which excludes nothing and is no reassurance.
/// </summary>
public enum CriterionVerdict
{
    /// <summary>Found, beyond the uncertainty.</summary>
    Met = 1,

    /// <summary>Examined, and not found.</summary>
    NotMet = 2,

    /// <summary>Examined, and what was found does not decide it; the finding says why.</summary>
    CannotTell = 3,

    /// <summary>What the criterion reads was not examined, or not all of it.</summary>
    NotExamined = 4,
}

/// <summary>What a criterion is about.</summary>
public enum CriterionKind
{
    /// <summary>A sign at the pupils.</summary>
    Sign = 1,

    /// <summary>A number to see beside a reading, never a pass or a fail.</summary>
    Context = 2,

    /// <summary>How far the exam itself can be relied on.</summary>
    Quality = 3,
}
