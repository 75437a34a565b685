namespace PupilBridge.Exams.Entries.Codec;

/// <summary>
/// The number of each kind of entry in the journal. A number, once given, is never given to another kind. Numbers below
/// 100 are the system's, from 100 on people's.
/// </summary>
public enum EntryKind
{
    /// <summary>See <see cref="Entries.ServiceStarted"/>.</summary>
    ServiceStarted = 1,

    /// <summary>See <see cref="Entries.ProfileInForce"/>.</summary>
    ProfileInForce = 2,

    /// <summary>See <see cref="Entries.SilenceReached"/>.</summary>
    SilenceReached = 3,

    /// <summary>See <see cref="Entries.InstrumentMet"/>.</summary>
    InstrumentMet = 10,

    /// <summary>See <see cref="Entries.InstrumentReported"/>.</summary>
    InstrumentReported = 11,

    /// <summary>See <see cref="Entries.EventsLost"/>.</summary>
    EventsLost = 12,

    /// <summary>See <see cref="Entries.EventsConflict"/>.</summary>
    EventsConflict = 13,

    /// <summary>See <see cref="Entries.LineChanged"/>.</summary>
    LineChanged = 14,

    /// <summary>See <see cref="Entries.CommandWished"/>.</summary>
    CommandWished = 15,

    /// <summary>See <see cref="Entries.CommandEnded"/>.</summary>
    CommandEnded = 16,

    /// <summary>See <see cref="Entries.PatientEntered"/>.</summary>
    PatientEntered = 100,

    /// <summary>See <see cref="Entries.ExamOpened"/>.</summary>
    ExamOpened = 101,

    /// <summary>See <see cref="Entries.ExamAttached"/>.</summary>
    ExamAttached = 102,

    /// <summary>See <see cref="Entries.ExamMoved"/>.</summary>
    ExamMoved = 103,

    /// <summary>See <see cref="Entries.ExamSplit"/>.</summary>
    ExamSplit = 104,

    /// <summary>See <see cref="Entries.EyeStatusEntered"/>.</summary>
    EyeStatusEntered = 105,

    /// <summary>See <see cref="Entries.RoomLightEntered"/>.</summary>
    RoomLightEntered = 106,

    /// <summary>See <see cref="Entries.FixationEntered"/>.</summary>
    FixationEntered = 107,

    /// <summary>See <see cref="Entries.JudgementEntered"/>.</summary>
    JudgementEntered = 108,

    /// <summary>See <see cref="Entries.EntryWithdrawn"/>.</summary>
    EntryWithdrawn = 109,

    /// <summary>See <see cref="Entries.NoteEntered"/>.</summary>
    NoteEntered = 110,

    /// <summary>See <see cref="Entries.NotExaminedAccepted"/>.</summary>
    NotExaminedAccepted = 111,

    /// <summary>See <see cref="Entries.ExamMadeReady"/>.</summary>
    ExamMadeReady = 112,

    /// <summary>See <see cref="Entries.ExamSetAside"/>.</summary>
    ExamSetAside = 113,

    /// <summary>See <see cref="Entries.PatientsMerged"/>.</summary>
    PatientsMerged = 114,

    /// <summary>See <see cref="Entries.PatientsParted"/>.</summary>
    PatientsParted = 115,

    /// <summary>See <see cref="Entries.PatientErased"/>.</summary>
    PatientErased = 116,

    /// <summary>See <see cref="Entries.ExamSigned"/>.</summary>
    ExamSigned = 120,

    /// <summary>See <see cref="Entries.AmendmentBegun"/>.</summary>
    AmendmentBegun = 121,

    /// <summary>See <see cref="Entries.RecordSent"/>.</summary>
    RecordSent = 122,

    /// <summary>See <see cref="Entries.SendingDecided"/>.</summary>
    SendingDecided = 123,

    /// <summary>See <see cref="Entries.PersonChanged"/>.</summary>
    PersonChanged = 130,

    /// <summary>See <see cref="Entries.PersonSignedIn"/>.</summary>
    PersonSignedIn = 131,

    /// <summary>See <see cref="Entries.DayListEntered"/>.</summary>
    DayListEntered = 132,

    /// <summary>See <see cref="Entries.FilterStepEntered"/>.</summary>
    FilterStepEntered = 133,

    /// <summary>See <see cref="Entries.BellGradeEntered"/>.</summary>
    BellGradeEntered = 134,

    /// <summary>See <see cref="Entries.CalibrationIssued"/>.</summary>
    CalibrationIssued = 140,

    /// <summary>See <see cref="Entries.LampBalanceEntered"/>.</summary>
    LampBalanceEntered = 141,

    /// <summary>See <see cref="Entries.DiscSetEntered"/>.</summary>
    DiscSetEntered = 142,

    /// <summary>See <see cref="Entries.BenchRunBegun"/>.</summary>
    BenchRunBegun = 143,

    /// <summary>See <see cref="Entries.BenchReadingMarked"/>.</summary>
    BenchReadingMarked = 144,

    /// <summary>See <see cref="Entries.BenchRunEnded"/>.</summary>
    BenchRunEnded = 145,

    /// <summary>See <see cref="Entries.RepeatabilityAdopted"/>.</summary>
    RepeatabilityAdopted = 146,
}
