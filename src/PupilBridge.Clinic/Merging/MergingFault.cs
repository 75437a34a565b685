namespace PupilBridge.Clinic.Merging;

/// <summary>Why two patients are not merged, or not parted: a family of words.</summary>
internal enum MergingFault
{
    /// <summary>It is one number.</summary>
    WithItself = 1,

    /// <summary>The number that is to go is merged already.</summary>
    GoneAlready = 2,

    /// <summary>The number that is to go on is merged into a third one.</summary>
    KeptIsGone = 3,

    /// <summary>The number that is to go on is merged into the very one that is to go.</summary>
    Circle = 4,

    /// <summary>Others are merged into the number that is to go.</summary>
    OthersLeadHere = 5,

    /// <summary>Nobody entered the number that is to go on.</summary>
    UnknownKept = 6,

    /// <summary>Neither a patient nor an exam has the number that is to go.</summary>
    UnknownMerged = 7,

    /// <summary>Their dates of birth differ, and that was not said.</summary>
    BirthDates = 8,

    /// <summary>There is no merging to take back.</summary>
    NotMerged = 9,

    /// <summary>It is the number that goes on; another one was merged into it.</summary>
    PartTheOther = 10,

    /// <summary>The merging that was seen was taken back, and another one stands.</summary>
    MergedAnew = 11,
}
