namespace PupilBridge.Clinic.Erasing;

/// <summary>What can be in the way of erasing a patient; the words stand in <c>Desk.resx</c>.</summary>
internal enum ErasureFault
{
    /// <summary>Nothing is known of the number.</summary>
    Unknown = 1,

    /// <summary>Nothing in this data folder is sealed.</summary>
    NotSealed = 2,

    /// <summary>Something of the patient was written before sealing began.</summary>
    WrittenPlain = 3,

    /// <summary>An exam of the patient takes events.</summary>
    ExamOpen = 4,

    /// <summary>The number is merged into another one.</summary>
    MergedInto = 5,

    /// <summary>Reason or orderer say who the patient is.</summary>
    NamesThePatient = 6,

    /// <summary>It is more than one entry of the journal can name.</summary>
    TooMuch = 7,
}
