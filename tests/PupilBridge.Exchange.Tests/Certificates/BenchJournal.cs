using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>
/// A calibration run as the journal would have it: instrument and technician take turns, and the reducer makes the run of it.
/// </summary>
internal sealed class BenchJournal
{
    private readonly Dictionary<ExamId, Exam> runs = [];
    private ExamBook book = ExamBook.Empty;
    private long last;
    private readonly Lane lane = new("Q7");
    private long clock = 1_767_600_000_000;
    private ulong ids;

    public BenchJournal()
    {
        Put(
            new ServiceStarted
            {
                At = new(clock),
                ProgramVersion = "0.5",
                Host = new(1),
            }
        );
        Put(lane.Identify("A", clock));
    }

    /// <summary>The run as it stands.</summary>
    public Exam Run => runs.Values.Single();

    public void Begin(DiscSet set, int repeats, DecisionRule rule, double straightness, string conditions) =>
        Put(
            new BenchRunBegun
            {
                Id = Next(),
                Who = new("TK"),
                At = new(Tick(2_000)),
                ProgramVersion = "0.5",
                Serial = lane.Serial,
                Kind = BenchRunKind.Calibration,
                DiscSet = set,
                Plan = BenchPlans.Calibration(set, repeats, 20260105),
                Seed = 20260105,
                Rule = rule,
                StraightnessMillimetres = straightness,
                TemperatureCelsius = 21.4,
                Conditions = conditions,
            }
        );

    public void Measure() =>
        Put(lane.Say(InstrumentEvent.ModeChanged(default, InstrumentMode.Measure, Block.None, ModeCause.Dial), Tick()));

    /// <summary>A disc is read with the mark keys.</summary>
    /// <returns>The entry that completed the reading.</returns>
    public JournalSequence Read(Eye eye, int micrometres)
    {
        Put(lane.Say(InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Nasal, new(5_000)), Tick(4_000)));
        Put(
            lane.Say(
                InstrumentEvent.EdgeMarked(default, eye, PupilEdge.Temporal, new(5_000 + micrometres)),
                Tick(2_000)
            )
        );
        return new(last);
    }

    public void SetAside(JournalSequence reading, string reason) =>
        Put(
            new BenchReadingMarked
            {
                Id = Next(),
                Who = new("TK"),
                At = new(Tick()),
                ProgramVersion = "0.5",
                Exam = Run.Id,
                Reading = reading,
                IsSetAside = true,
                Reason = reason,
            }
        );

    public void Finish() =>
        Put(
            new BenchRunEnded
            {
                Id = Next(),
                Who = new("TK"),
                At = new(Tick()),
                ProgramVersion = "0.5",
                Exam = Run.Id,
                IsFinished = true,
                Reason = "",
            }
        );

    private long Tick() => Tick(1_000);

    private long Tick(long milliseconds) => clock += milliseconds;

    private EntryId Next() => new(++ids);

    private void Put(JournalEntry entry)
    {
        (book, var changes) = ExamReducer.Apply(book, new(new(++last), entry), id => runs.GetValueOrDefault(id));
        foreach (var change in changes.OfType<BenchRunChanged>())
            runs[change.Run.Id] = change.Run;
        Assert.Empty(changes.OfType<EntryIgnored>());
    }
}
