using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of every kind.</summary>
internal static class EntryGen
{
    private static readonly Gen<string> Text = Gen.Char[' ', '\u04FF'].Array[0, 30].Select(c => new string(c));
    private static readonly Gen<string> Short = Gen.Char['A', 'z'].Array[1, 16].Select(c => new string(c));
    private static readonly Gen<UtcTime> Time = Gen.Long.Select(ms => new UtcTime(ms));
    private static readonly Gen<SerialNumber> Serial = Gen.Char['0', '9']
        .Array[1, 16]
        .Select(c => new SerialNumber(new(c)));
    private static readonly Gen<BootNumber> Boot = Gen.ULong.Select(b => new BootNumber(b));
    private static readonly Gen<Eye> AnyEye = Gen.Bool.Select(left => left ? Eye.Left : Eye.Right);
    private static readonly Gen<EntryId> Id = Gen.Select(Gen.ULong, Gen.ULong).Select((a, b) => new EntryId(new(a, b)));
    private static readonly Gen<PatientId> Patient = Short.Select(s => new PatientId(s));
    private static readonly Gen<ExamId> Exam = Gen.Long[1, 1L << 53].Select(n => new ExamId(n));
    private static readonly Gen<ValueList<ExamStep>> Steps = Gen.Enum<ExamStep>()
        .Array[0, 8]
        .Select(steps => new ValueList<ExamStep>([.. steps]));

    private static readonly Gen<Grade> AnyGrade = Gen.Int[-1, 8]
        .Select(half => half < 0 ? Grade.CouldNotSee : Grade.FromHalfSteps(half));

    private static readonly Gen<Judgement> AnyJudgement = Gen.OneOf(
        Gen.Select(AnyEye, Gen.Enum<PupilShape>()).Select((e, s) => (Judgement)new ShapeJudgement(e, s)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new DirectResponse(e, g)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new ConsensualResponse(e, e.Fellow(), g)),
        Gen.Select(
                Gen.Bool.Select(longDwell => longDwell ? Block.SwingLong : Block.SwingShort),
                Gen.Enum<SwingFinding>(),
                Gen.Enum<PupilsObserved>()
            )
            .Select((d, f, o) => (Judgement)new SwingOutcome(d, f, o)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new NearResponse(e, g)),
        AnyEye.Select(e => (Judgement)new SlowToDilate(e))
    );

    private static readonly Gen<Profile> AnyProfile = Gen.Select(
            Text,
            Gen.Int,
            Steps,
            Gen.Int.Array[16, 16],
            Gen.Bool,
            Gen.Select(AnyGrade, Text.Array[5, 5])
        )
        .Select(
            (name, version, steps, n, measured, words) =>
                new Profile
                {
                    Name = name,
                    Version = version,
                    Steps = steps,
                    Direct = new()
                    {
                        StimuliPerEye = n[0],
                        DwellMilliseconds = n[1],
                        GapMilliseconds = n[2],
                    },
                    SwingShort = new()
                    {
                        DwellMilliseconds = n[3],
                        Alternations = n[4],
                        MaxGapMilliseconds = n[5],
                    },
                    SwingLong = new()
                    {
                        DwellMilliseconds = n[6],
                        Alternations = n[7],
                        MaxGapMilliseconds = n[8],
                    },
                    DwellTolerancePercent = n[9],
                    Captures = new()
                    {
                        PairWithinMilliseconds = n[10],
                        SmallestDiameter = new(n[11]),
                        LargestDiameter = new(n[12]),
                        SettingRepeatability = new(n[13]),
                        SettingRepeatabilityIsMeasured = measured,
                    },
                    Light = LightRules.Default with { DimAtMostMillilux = n[14] },
                    Closing = new() { SilenceMilliseconds = n[15], PassedStopMilliseconds = n[0] },
                    Chart = ChartRules.Default with { MinimumDirectGrade = words.Item1 },
                    Legend = new() { Version = n[3], Grades = [.. words.Item2] },
                }
        );

    private static readonly Gen<(EntryId Id, PersonId Who, UtcTime At, string Version, ExamId Exam)> Head = Gen.Select(
        Id,
        Short.Select(s => new PersonId(s)),
        Time,
        Text,
        Exam
    );

    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(ServiceStarted)] = Gen.Select(Time, Text, Gen.UInt)
            .Select(
                (t, v, h) =>
                    (JournalEntry)
                        new ServiceStarted
                        {
                            At = t,
                            ProgramVersion = v,
                            Host = new(h),
                        }
            ),
        [typeof(ProfileInForce)] = Gen.Select(Time, AnyProfile)
            .Select((t, p) => (JournalEntry)new ProfileInForce { At = t, Profile = p }),
        [typeof(SilenceReached)] = Gen.Select(Time, Serial)
            .Select((t, s) => (JournalEntry)new SilenceReached { At = t, Serial = s }),
        [typeof(InstrumentMet)] = Gen.Select(Time, Serial, Boot, Text, Text.Array[0, 8])
            .Select(
                (t, s, b, p, l) =>
                    (JournalEntry)
                        new InstrumentMet
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            PortName = p,
                            RawLines = [.. l],
                        }
            ),
        [typeof(InstrumentReported)] = Gen.Select(Serial, Boot, Gen.Long, Text, Gen.Select(Time, Gen.Long, Time))
            .Select(
                (s, b, n, l, t) =>
                    (JournalEntry)
                        new InstrumentReported
                        {
                            Serial = s,
                            Boot = b,
                            Sequence = n,
                            RawLine = l,
                            HappenedAt = t.Item1,
                            UncertaintyMilliseconds = t.Item2,
                            ArrivedAt = t.Item3,
                        }
            ),
        [typeof(EventsLost)] = Gen.Select(Time, Serial, Boot, Gen.Long, Gen.Long.Nullable(), Gen.Enum<LossCause>())
            .Select(
                (t, s, b, f, l, c) =>
                    (JournalEntry)
                        new EventsLost
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            First = f,
                            Last = l,
                            Cause = c,
                        }
            ),
        [typeof(EventsConflict)] = Gen.Select(Time, Serial, Boot, Gen.Long, Text)
            .Select(
                (t, s, b, n, l) =>
                    (JournalEntry)
                        new EventsConflict
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            Sequence = n,
                            RawLine = l,
                        }
            ),
        [typeof(LineChanged)] = Gen.Select(Time, Serial.Nullable(), Text, Gen.Enum<LineState>(), Text)
            .Select(
                (t, s, p, l, r) =>
                    (JournalEntry)
                        new LineChanged
                        {
                            At = t,
                            Serial = s,
                            PortName = p,
                            State = l,
                            Reason = r,
                        }
            ),
        [typeof(CommandWished)] = Gen.Select(
                Time,
                Serial,
                Gen.Long,
                Text,
                Short.Select(s => new PersonId(s)).Nullable()
            )
            .Select(
                (t, s, n, c, w) =>
                    (JournalEntry)
                        new CommandWished
                        {
                            At = t,
                            Serial = s,
                            Number = n,
                            Command = c,
                            Who = w,
                        }
            ),
        [typeof(CommandEnded)] = Gen.Select(Time, Serial, Gen.Long, Gen.Enum<CommandOutcome>(), Text)
            .Select(
                (t, s, n, o, r) =>
                    (JournalEntry)
                        new CommandEnded
                        {
                            At = t,
                            Serial = s,
                            Number = n,
                            Outcome = o,
                            Reason = r,
                        }
            ),
        [typeof(PatientEntered)] = Gen.Select(Head, Patient, Text, Gen.Int[0, 3_652_058].Nullable(), Gen.Bool)
            .Select(
                (h, p, name, day, erased) =>
                    (JournalEntry)
                        new PatientEntered
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Patient = p,
                            Details = erased
                                ? null
                                : new() { Name = name, BirthDate = day is { } d ? DateOnly.FromDayNumber(d) : null },
                        }
            ),
        [typeof(ExamOpened)] = Gen.Select(Head, Serial, Patient.Nullable())
            .Select(
                (h, s, p) =>
                    (JournalEntry)
                        new ExamOpened
                        {
                            Id = h.Id,
                            Who = h.Who,
                            At = h.At,
                            ProgramVersion = h.Version,
                            Serial = s,
                            Patient = p,
                        }
            ),
        [typeof(ExamAttached)] = About(
            Patient,
            Text.Null(),
            (h, p, r) =>
                new ExamAttached
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Patient = p,
                    Reason = r,
                }
        ),
        [typeof(ExamMoved)] = About(
            Patient,
            Text.Null(),
            (h, p, r) =>
                new ExamMoved
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Patient = p,
                    Reason = r,
                }
        ),
        [typeof(ExamSplit)] = About(
            Gen.Long,
            Text.Null(),
            (h, n, r) =>
                new ExamSplit
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    From = new(n),
                    Reason = r,
                }
        ),
        [typeof(EyeStatusEntered)] = About(
            AnyEye,
            Gen.Int[0, 63],
            (h, e, c) =>
                new EyeStatusEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Eye = e,
                    Conditions = (EyeConditions)c,
                }
        ),
        [typeof(RoomLightEntered)] = About(
            Gen.Enum<RoomLight>(),
            Gen.Bool,
            (h, l, _) =>
                new RoomLightEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Light = l,
                }
        ),
        [typeof(FixationEntered)] = About(
            Gen.Enum<Fixation>(),
            Gen.Bool,
            (h, f, _) =>
                new FixationEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Fixation = f,
                }
        ),
        [typeof(JudgementEntered)] = About(
            AnyJudgement,
            Gen.Select(Gen.Enum<ExamStep>().Nullable(), Gen.Long.Nullable()),
            (h, j, seen) =>
                new JudgementEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Judgement = j,
                    StepSeen = seen.Item1,
                    StimulusSeen = seen.Item2 is { } n ? new JournalSequence(n) : null,
                }
        ),
        [typeof(EntryWithdrawn)] = About(
            Id,
            Text.Null(),
            (h, i, r) =>
                new EntryWithdrawn
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Withdrawn = i,
                    Reason = r,
                }
        ),
        [typeof(NoteEntered)] = About(
            Text.Null(),
            Gen.Bool,
            (h, t, _) =>
                new NoteEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Text = t,
                }
        ),
        [typeof(NotExaminedAccepted)] = About(
            Steps,
            Gen.Bool,
            (h, s, _) =>
                new NotExaminedAccepted
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Steps = s,
                }
        ),
        [typeof(ExamMadeReady)] = About(
            Gen.Bool,
            Gen.Bool,
            (h, _, _) =>
                new ExamMadeReady
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                }
        ),
        [typeof(ExamSetAside)] = About(
            Text.Null(),
            Gen.Bool,
            (h, r, _) =>
                new ExamSetAside
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Reason = r,
                }
        ),
        [typeof(ExamSigned)] = About(
            Gen.Select(Gen.Int, Gen.Long.Nullable()),
            Gen.Select(Text.Null(), Text.Null()),
            (h, v, t) =>
                new ExamSigned
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Version = v.Item1,
                    MadeUpTo = v.Item2 is { } n ? new JournalSequence(n) : null,
                    Record = t.Item1,
                    // Record and reason are erased together.
                    Reason = t.Item1 is null ? null : t.Item2,
                }
        ),
        [typeof(AmendmentBegun)] = About(
            Text.Null(),
            Gen.Bool,
            (h, r, _) =>
                new AmendmentBegun
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Reason = r,
                }
        ),
        [typeof(PersonChanged)] = About(
            Gen.Select(Short, Short),
            Gen.Select(Gen.Int[0, 15], Gen.Bool),
            (h, names, rights) =>
                new PersonChanged
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Person = new(names.Item1),
                    Roles = (PersonRoles)rights.Item1,
                    IsEnabled = rights.Item2,
                    What = names.Item2,
                }
        ),
        [typeof(PersonSignedIn)] = About(
            Gen.Select(Short, Short),
            Gen.Enum<SignInKind>(),
            (h, names, kind) =>
                new PersonSignedIn
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Person = new(names.Item1),
                    Kind = kind,
                    Where = names.Item2,
                }
        ),
        [typeof(DayListEntered)] = About(
            Gen.Select(Gen.Int[0, 3_652_058], Text),
            Gen.Select(Patient, Gen.Int[0, 1439].Nullable()).Array[0, 6],
            (h, day, items) =>
                new DayListEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Date = DateOnly.FromDayNumber(day.Item1),
                    SourceName = day.Item2,
                    Items = [.. items.Select(i => new DayListItem { Patient = i.Item1, MinuteOfDay = i.Item2 })],
                }
        ),
    };

    /// <summary>An entry of any kind.</summary>
    public static readonly Gen<JournalEntry> Any = Gen.OneOf([.. ByKind.Values]);

    private static Gen<JournalEntry> About<TA, TB>(
        Gen<TA> first,
        Gen<TB> second,
        Func<(EntryId Id, PersonId Who, UtcTime At, string Version, ExamId Exam), TA, TB, JournalEntry> make
    ) => Gen.Select(Head, first, second).Select((h, a, b) => make(h, a, b));
}
