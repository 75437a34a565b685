using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.Entries;

/// <summary>
/// Something a person enters. It is marked as not recorded on the screen until <see cref="IClinicDesk.EnterAsync"/> says that it
/// is; after an interruption it is sent again as it is, with the same id, and is recorded once.
/// </summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "entry")]
[JsonDerivedType(typeof(PatientEntry), "patient")]
[JsonDerivedType(typeof(MergeEntry), "mergePatients")]
[JsonDerivedType(typeof(PartEntry), "partPatients")]
[JsonDerivedType(typeof(ErasePatientEntry), "erasePatient")]
[JsonDerivedType(typeof(OpenExamEntry), "openExam")]
[JsonDerivedType(typeof(AttachEntry), "attach")]
[JsonDerivedType(typeof(MoveEntry), "move")]
[JsonDerivedType(typeof(SplitEntry), "split")]
[JsonDerivedType(typeof(RoomLightEntry), "roomLight")]
[JsonDerivedType(typeof(FixationEntry), "fixation")]
[JsonDerivedType(typeof(EyeStatusEntry), "eyeStatus")]
[JsonDerivedType(typeof(JudgementEntry), "judgement")]
[JsonDerivedType(typeof(FilterStepEntry), "filterStep")]
[JsonDerivedType(typeof(BellGradeEntry), "bellGrade")]
[JsonDerivedType(typeof(NoteEntry), "note")]
[JsonDerivedType(typeof(WithdrawEntry), "withdraw")]
[JsonDerivedType(typeof(NotExaminedEntry), "notExamined")]
[JsonDerivedType(typeof(MakeReadyEntry), "makeReady")]
[JsonDerivedType(typeof(SetAsideEntry), "setAside")]
[JsonDerivedType(typeof(SignEntry), "sign")]
[JsonDerivedType(typeof(AmendEntry), "amend")]
[JsonDerivedType(typeof(SendingEntry), "sending")]
[JsonDerivedType(typeof(DayListEntry), "dayList")]
[JsonDerivedType(typeof(DiscSetEntry), "discSet")]
[JsonDerivedType(typeof(BeginRunEntry), "beginRun")]
[JsonDerivedType(typeof(MarkReadingEntry), "markReading")]
[JsonDerivedType(typeof(RunRoomLightEntry), "runRoomLight")]
[JsonDerivedType(typeof(EndRunEntry), "endRun")]
[JsonDerivedType(typeof(IssueEntry), "issueCertificate")]
[JsonDerivedType(typeof(AdoptRepeatabilityEntry), "adoptRepeatability")]
[JsonDerivedType(typeof(LampBalanceEntry), "lampBalance")]
public abstract record DeskEntry
{
    private protected DeskEntry() { }

    /// <summary>The entry's id: 32 hexadecimal digits, drawn at random where it was typed.</summary>
    public required string EntryId { get; init; }

    /// <summary>Who enters it: initials or sign-in name, 1 to 64 characters.</summary>
    public required string Who { get; init; }

    /// <summary>When it was typed, by the clock of the machine where it was typed.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The version of the program in which it was typed.</summary>
    public required string ProgramVersion { get; init; }
}

/// <summary>Something a person enters about one exam.</summary>
public abstract record ExamDeskEntry : DeskEntry
{
    private protected ExamDeskEntry() { }

    /// <summary>The number of the exam that the person saw.</summary>
    public required long Exam { get; init; }
}
