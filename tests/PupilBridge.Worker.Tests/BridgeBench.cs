using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Tests.Keeping;
using PupilBridge.Worker.Tests.Lines;
using PupilBridge.Worker.Tests.Sessions;

namespace PupilBridge.Worker.Tests;

/// <summary>A whole bridge on a folder of its own, with one instrument on a line in memory.</summary>
internal sealed class BridgeBench : IAsyncDisposable
{
    private readonly TempFolder folder = new();
    private readonly MemoryLines lines = new();
    private int entries;

    public BridgeBench(TestInstrument? instrument = null, SealingChoice sealing = SealingChoice.WhenKeyed)
    {
        Line = new MemoryLine("bench", TimeProvider.System);
        lines.Add(Line);
        Instrument = new LiveTestInstrument(Line, TimeProvider.System, instrument ?? new TestInstrument()).Start();
        Options = new BridgeOptions { DataFolder = Path.Combine(folder.Path, "data"), Sealing = sealing };
        Options.Ports.Add(Line.Name);
        Bridge = Open();
    }

    public BridgeOptions Options { get; }

    public MemoryLine Line { get; }

    public LiveTestInstrument Instrument { get; }

    public FailingDisk Disk { get; } = new();

    /// <summary>What the next bridge that is opened writes its log to.</summary>
    public ILogger Logger { get; set; } = NullLogger.Instance;

    public Bridge Bridge { get; private set; }

    public string DataFolder => Options.DataFolder;

    public Bridge Open() =>
        Bridge = Bridge.Open(
            new BridgeParts
            {
                Options = Options,
                Disk = Disk,
                Logger = Logger,
                Openers = new PortOpeners(new PortSettings(), lines).For,
                FindPorts = () => [Line.Name],
            }
        );

    public async Task Live() =>
        await Eventually.Is(
            () => Bridge.Board.Look().Ports.Any(p => p.Port == Line.Name && p.Phase == PortPhase.Live),
            () => string.Join("; ", Bridge.Board.Look().Ports)
        );

    /// <summary>One short exam: both pupils measured by mark keys, a room light, a shape, then ready for review.</summary>
    public async Task<ExamId> ExamineAsync(string patient)
    {
        Say(tick => InstrumentEvent.ModeChanged(tick, InstrumentMode.Measure, Block.None, ModeCause.Dial));
        foreach (var (eye, nasal, temporal) in new[] { (Eye.Right, 10_000, 14_000), (Eye.Left, 10_000, 14_200) })
        {
            Say(tick => InstrumentEvent.EdgeMarked(tick, eye, PupilEdge.Nasal, new(nasal)));
            Say(tick => InstrumentEvent.EdgeMarked(tick, eye, PupilEdge.Temporal, new(temporal)));
        }

        // The exam opens by itself; the patient is attached afterwards.
        await Eventually.Is(() => Bridge.Exams.OpenExamOf(new SerialNumber("T-100"))?.Captures.Count == 2);
        var exam = Bridge.Exams.OpenExamOf(new SerialNumber("T-100"))!.Id;
        await Bridge.Keeper.RecordAsync(
            Stamp(id => new ExamAttached
            {
                Id = id,
                Who = new PersonId("MK"),
                At = UtcTime.From(TimeProvider.System.GetUtcNow()),
                ProgramVersion = "test",
                Exam = exam,
                Patient = new PatientId(patient),
                Reason = null,
            })
        );
        await Bridge.Keeper.RecordAsync(
            Stamp(id => new JudgementEntered
            {
                Id = id,
                Who = new PersonId("MK"),
                At = UtcTime.From(TimeProvider.System.GetUtcNow()),
                ProgramVersion = "test",
                Exam = exam,
                Judgement = new ShapeJudgement(Eye.Right, PupilShape.Round),
                StepSeen = null,
                StimulusSeen = null,
            })
        );
        await Bridge.Keeper.RecordAsync(
            Stamp(id => new ExamMadeReady
            {
                Id = id,
                Who = new PersonId("MK"),
                At = UtcTime.From(TimeProvider.System.GetUtcNow()),
                ProgramVersion = "test",
                Exam = exam,
            })
        );
        return exam;
    }

    public async Task<Exam> WrittenAsync(ExamId id, int captures = 2)
    {
        Exam? found = null;
        await Eventually.Is(
            () =>
            {
                found = Find(id);
                return found is { Status: ExamStatus.ReadyForReview } && found.Captures.Count >= captures;
            },
            () => $"{Bridge.Health} {found?.Status} {found?.Captures.Count}"
        );
        return found!;
    }

    public Exam? Find(ExamId id)
    {
        try
        {
            return Bridge.ExamLog.Read(log => log.FindExam(ExamDocuments.IdOf(id))) is { } stored
                ? ExamDocuments.Read(stored)
                : null;
        }
        catch (ExamLog.ExamLogBrokenException)
        {
            return null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await Instrument.DisposeAsync();
        await Bridge.DisposeAsync();
        folder.Dispose();
    }

    public void Say(Func<Tick, InstrumentEvent> happened) =>
        Instrument.Do((instrument, at) => instrument.Say(happened(instrument.TickAt(at)), at));

    public T Stamp<T>(Func<EntryId, T> make) => make(new EntryId((UInt128)(++entries)));
}
