using System.Buffers;
using System.Globalization;
using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
using PupilBridge.Journal;
using PupilBridge.Scenarios;

namespace PupilBridge.Measure.Growth;

/// <summary>
/// A journal as years of exams leave it, written through the product's own codec and writer: four lanes, 100 exams a day, each patient
/// seen four times, each day with its list. An exam has 24 entries: opened, the room bright and dim, both pupils by mark keys in each, two
/// shapes, one direct stimulus and its grade for each eye, made ready.
/// </summary>
internal sealed class GrowingJournal : IDisposable
{
    public const int ExamsOfADay = 100;
    public const int VisitsOfAPatient = 4;
    private const int Lanes = 4;
    private const int RecordsAtOnce = 8_000;

    /// <summary>The day on which the journal ends, whatever its length.</summary>
    public static readonly DateOnly Today = new(2026, 11, 27);

    private readonly JournalWriter writer;
    private readonly ArrayBufferWriter<byte> buffer = new();
    private readonly byte[] line = new byte[WireLimits.MaxLineBytes];
    private readonly long exams;
    private long sequence;
    private long ids;
    private long eventNumber;
    private SerialNumber serial;
    private BootNumber boot;
    private UtcTime at;

    private GrowingJournal(string dataFolder, long exams)
    {
        this.exams = exams;
        writer = JournalWriter.Open(RealDisk.Instance, KeptData.Journal(dataFolder) with { PreallocateBytes = 0 });
    }

    /// <summary>The number of the patient of an exam; visits lie one fourth of the patients' number apart.</summary>
    public static PatientId PatientOf(long exam, long exams) =>
        new(string.Create(CultureInfo.InvariantCulture, $"Q-{1001 + (exam % Math.Max(1, exams / VisitsOfAPatient))}"));

    /// <summary>Writes so many exams.</summary>
    /// <returns>How many entries it took.</returns>
    public static long Write(string dataFolder, long exams)
    {
        using var journal = new GrowingJournal(dataFolder, exams);
        journal.Start();
        for (var exam = 0L; exam < exams; exam++)
            journal.Examine(exam);
        journal.Commit();
        var entries = journal.sequence;
        return journal.writer.StopCleanly().IsDurable ? entries : throw new IOException("The journal did not stop.");
    }

    public void Dispose() => writer.Dispose();

    private void Start()
    {
        at = TimeOf(0);
        Put(
            new ServiceStarted
            {
                At = at,
                ProgramVersion = "growth",
                Host = new HostId(1),
            }
        );
        Put(new ProfileInForce { At = at, Profile = Profile.Default });
    }

    private UtcTime TimeOf(long exam)
    {
        var days = (exams - 1) / ExamsOfADay;
        var day = Today.AddDays((int)((exam / ExamsOfADay) - days)).ToDateTime(new TimeOnly(8, 0), DateTimeKind.Utc);
        return UtcTime.From(new DateTimeOffset(day).AddMinutes(5 * (exam % ExamsOfADay)));
    }

    private void Examine(long exam)
    {
        at = TimeOf(exam);
        if (exam % ExamsOfADay == 0)
            BeginDay(exam);
        serial = SerialOf((int)(exam % Lanes));
        boot = BootOf(exam);
        eventNumber = exam % ExamsOfADay / Lanes * 14;
        var patient = PatientOf(exam, exams);
        if (exam < Math.Max(1, exams / VisitsOfAPatient))
            Put(Enter(patient));
        var opened = new ExamId(sequence + 1);
        Put(
            new ExamOpened
            {
                Id = NextId(),
                Who = Who,
                At = at,
                ProgramVersion = "growth",
                Serial = serial,
                Patient = patient,
            }
        );
        Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Measure, Block.None, ModeCause.Dial));
        Measure(300_000, 4_100 + (int)(exam % 7 * 100));
        Measure(2_000, 6_000 + (int)(exam % 5 * 100));
        Judge(opened, new ShapeJudgement(Eye.Right, PupilShape.Round));
        Judge(opened, new ShapeJudgement(Eye.Left, PupilShape.Round));
        Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Sequence, Block.Direct, ModeCause.Dial));
        foreach (var eye in (Eye[])[Eye.Right, Eye.Left])
        {
            Say(InstrumentEvent.LampSwitched(default, eye, true, 100));
            Say(InstrumentEvent.LampSwitched(default, eye, false, 100));
            Judge(opened, new DirectResponse(eye, Grade.Of(3)));
        }

        Put(
            new ExamMadeReady
            {
                Id = NextId(),
                Who = Who,
                At = at,
                ProgramVersion = "growth",
                Exam = opened,
            }
        );
    }

    private void BeginDay(long exam)
    {
        for (var lane = 0; lane < Lanes; lane++)
        {
            Put(
                new InstrumentMet
                {
                    At = at,
                    Serial = SerialOf(lane),
                    Boot = BootOf(exam),
                    PortName = "memory:growth",
                    RawLines =
                    [
                        WithCrc($"ID,1,{SerialOf(lane)},Quay-A,1.0,{BootOf(exam)},ML,1,0,-"),
                        WithCrc("STOP,1,IDLE,-"),
                        WithCrc("SCALE,R,2000,OUT,10,0,30000"),
                        WithCrc("SCALE,L,2000,OUT,10,0,30000"),
                    ],
                }
            );
        }

        var count = Math.Min(ExamsOfADay, exams - exam);
        Put(
            new DayListEntered
            {
                Id = NextId(),
                Who = Who,
                At = at,
                ProgramVersion = "growth",
                Date = DateOnly.FromDateTime(at.ToDateTimeOffset().UtcDateTime),
                SourceName = "day.csv",
                Items =
                [
                    .. Enumerable
                        .Range(0, (int)count)
                        .Select(n => new DayListItem
                        {
                            Patient = PatientOf(exam + n, exams),
                            MinuteOfDay = (8 * 60) + (n * 5),
                        }),
                ],
            }
        );
    }

    private void Measure(int millilux, int micrometres)
    {
        Say(InstrumentEvent.RoomMeasured(default, millilux));
        foreach (var eye in (Eye[])[Eye.Right, Eye.Left])
        {
            Say(InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Nasal, new(10_000)));
            Say(InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Temporal, new(10_000 + micrometres)));
        }
    }

    private void Judge(ExamId exam, Judgement judgement) =>
        Put(
            new JudgementEntered
            {
                Id = NextId(),
                Who = Who,
                At = at,
                ProgramVersion = "growth",
                Exam = exam,
                Judgement = judgement,
                StepSeen = null,
                StimulusSeen = null,
            }
        );

    private PatientEntered Enter(PatientId patient) =>
        new()
        {
            Id = NextId(),
            Who = Who,
            At = at,
            ProgramVersion = "growth",
            Patient = patient,
            Details = new PatientDetails { Name = $"Pilot {patient.Value}", BirthDate = new DateOnly(1980, 1, 1) },
        };

    private void Say(InstrumentEvent happened)
    {
        at = at.PlusMilliseconds(1_000);
        eventNumber++;
        var told = happened with { Boot = boot, Sequence = eventNumber, Tick = new(eventNumber * 1_000) };
        var length = InstrumentLineEncoder.Encode(new InstrumentLine(told), line);
        Put(
            new InstrumentReported
            {
                Serial = serial,
                Boot = boot,
                Sequence = eventNumber,
                RawLine = Encoding.ASCII.GetString(line, 0, length).TrimEnd('\n', '\r'),
                HappenedAt = at,
                UncertaintyMilliseconds = 2,
                ArrivedAt = at,
            }
        );
    }

    private void Put(JournalEntry entry)
    {
        buffer.ResetWrittenCount();
        EntryCodec.Encode(entry, buffer);
        sequence = writer.Append(buffer.WrittenSpan);
        if (sequence % RecordsAtOnce == 0)
            Commit();
    }

    private void Commit()
    {
        if (writer.Commit() is { IsDurable: false } failed)
            throw new IOException($"The journal could not be written: {failed}");
    }

    private static PersonId Who => new("MK");

    private static SerialNumber SerialOf(int lane) =>
        new(string.Create(CultureInfo.InvariantCulture, $"QA-07{lane:00}"));

    private static BootNumber BootOf(long exam) => new((ulong)(0xB000 + (exam / ExamsOfADay)));

    private static string WithCrc(string body) =>
        string.Create(CultureInfo.InvariantCulture, $"{body}*{LineCrc.Of(Encoding.ASCII.GetBytes(body)):X8}");

    /// <summary>Ids spread over all numbers, as those drawn at random are, and the same in each run.</summary>
    private EntryId NextId() =>
        new(((UInt128)((ulong)++ids * 0x9E37_79B9_7F4A_7C15UL) << 64) | ((ulong)ids * 0xD6E8_FEB8_6659_FD93UL));
}
