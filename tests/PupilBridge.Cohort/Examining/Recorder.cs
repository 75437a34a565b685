using System.Globalization;
using System.Text;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Cohort.Examining;

/// <summary>
/// The journal of one simulated exam, in memory: what the instrument says, as lines of the protocol, and what the examiner
/// enters. The reducer folds it like any other journal.
/// </summary>
internal sealed class Recorder
{
    private const long TickOffset = 5_000;
    private static readonly SerialNumber Serial = new("Q7");
    private static readonly BootNumber Boot = new(1);
    private readonly List<SequencedEntry> journal = [];
    private long events;
    private ulong entries;
    private ExamId exam;

    public Recorder(long clockMilliseconds)
    {
        Clock = clockMilliseconds;
        string[] bodies =
        [
            $"ID,1,{Serial},Quay-A,1.0,{Boot},ML,1,0,-",
            "STOP,1,IDLE,-",
            "SCALE,R,2000,OUT,10,0,30000",
            "SCALE,L,2000,OUT,10,0,30000",
        ];
        Put(
            new InstrumentMet
            {
                At = new(Clock),
                Serial = Serial,
                Boot = Boot,
                PortName = "memory",
                RawLines =
                [
                    .. bodies.Select(b =>
                        string.Create(CultureInfo.InvariantCulture, $"{b}*{LineCrc.Of(Encoding.ASCII.GetBytes(b)):X8}")
                    ),
                ],
            }
        );
        Put(
            new ServiceStarted
            {
                At = new(Clock),
                ProgramVersion = "0",
                Host = new(1),
            }
        );
    }

    /// <summary>The time, in ms.</summary>
    public long Clock { get; private set; }

    public void Pass(long milliseconds) => Clock += milliseconds;

    public void Say(InstrumentEvent happened)
    {
        Span<byte> bytes = stackalloc byte[WireLimits.MaxLineBytes];
        events++;
        happened = happened with { Boot = Boot, Sequence = events, Tick = new(Clock + TickOffset) };
        var length = InstrumentLineEncoder.Encode(new InstrumentLine(happened), bytes);
        Put(
            new InstrumentReported
            {
                Serial = Serial,
                Boot = Boot,
                Sequence = events,
                RawLine = Encoding.ASCII.GetString(bytes[..length]).TrimEnd('\n'),
                HappenedAt = new(Clock),
                UncertaintyMilliseconds = 0,
                ArrivedAt = new(Clock),
            }
        );
    }

    public void Open(string patient)
    {
        Put(
            new ExamOpened
            {
                Id = new(++entries),
                Who = new("AB"),
                At = new(Clock),
                ProgramVersion = "0",
                Serial = Serial,
                Patient = new PatientId(patient),
            }
        );
        exam = ExamId.OpenedBy(new(journal.Count));
    }

    public void Enter(Judgement judgement) =>
        Put(
            new JudgementEntered
            {
                Id = new(++entries),
                Who = new("AB"),
                At = new(Clock),
                ProgramVersion = "0",
                Exam = exam,
                Judgement = judgement,
                StepSeen = null,
                StimulusSeen = null,
            }
        );

    public void Enter(Eye eye, EyeConditions conditions) =>
        Put(
            new EyeStatusEntered
            {
                Id = new(++entries),
                Who = new("AB"),
                At = new(Clock),
                ProgramVersion = "0",
                Exam = exam,
                Eye = eye,
                Conditions = conditions,
            }
        );

    public void MakeReady() =>
        Put(
            new ExamMadeReady
            {
                Id = new(++entries),
                Who = new("AB"),
                At = new(Clock),
                ProgramVersion = "0",
                Exam = exam,
            }
        );

    /// <summary>What the reducer makes of it.</summary>
    public Exam Fold()
    {
        var book = ExamBook.Empty;
        Dictionary<ExamId, Exam> exams = [];
        foreach (var entry in journal)
        {
            (book, var changes) = ExamReducer.Apply(book, entry, id => exams.GetValueOrDefault(id));
            foreach (var change in changes.OfType<ExamChanged>())
                exams[change.Exam.Id] = change.Exam;
        }

        return exams[exam];
    }

    private void Put(JournalEntry entry) => journal.Add(new(new(journal.Count + 1), entry));
}
