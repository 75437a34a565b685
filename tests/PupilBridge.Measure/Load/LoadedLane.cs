using System.Diagnostics;
using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Ports;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Measure.Load;

/// <summary>
/// One simulated instrument behind a TCP line, with an examiner who examines one person after the other. It has no thread: the program
/// steps all of them in turn. It notes when each event happened and when a host acknowledged it.
/// </summary>
internal sealed class LoadedLane : IAsyncDisposable
{
    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(1);
    private readonly TcpPortListener side = new();
    private readonly SimulatedInstrument instrument;
    private readonly Lock gate = new();
    private readonly Queue<long> happened = [];
    private readonly List<double> acknowledgedAfter = [];
    private readonly long start = Stopwatch.GetTimestamp();
    private readonly double pace;
    private readonly long seed;
    private SimulatedExam? exam;
    private TimeSpan reached;
    private long acknowledged;

    public LoadedLane(int number, double pace)
    {
        this.pace = pace;
        seed = 10_000L * number;
        Serial = new SerialNumber(string.Create(CultureInfo.InvariantCulture, $"QA-8{number:000}"));
        instrument = new SimulatedInstrument(
            number % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB,
            Serial,
            seed
        );
        instrument.SwitchOn();
        _ = HearAsync();
    }

    public SerialNumber Serial { get; }

    public string Port => side.Name;

    /// <summary>How many exams were begun.</summary>
    public long Exams { get; private set; }

    /// <summary>Whether a host has greeted the instrument.</summary>
    public bool IsGreeted => With(() => instrument.Link.Phase >= InstrumentLinkPhase.Idle);

    public bool IsAllAcknowledged => With(() => instrument.IsAllAcknowledged);

    /// <summary>From each event's happening to its acknowledgement, in milliseconds.</summary>
    public IReadOnlyList<double> AcknowledgedAfter => With(() => (IReadOnlyList<double>)[.. acknowledgedAfter]);

    /// <summary>Lets time pass to now, and sends what is to be sent.</summary>
    /// <param name="examines">Whether the examiner goes on.</param>
    public async ValueTask StepAsync(bool examines)
    {
        byte[] bytes;
        lock (gate)
        {
            var now = Stopwatch.GetElapsedTime(start);
            var passed = (now - reached) * pace;
            reached = now;
            if (examines)
                Examine(passed);
            var moment = Stopwatch.GetTimestamp();
            while (acknowledged + happened.Count < instrument.Truth.LastSequence)
                happened.Enqueue(moment);
            bytes = instrument.Collect(now);
        }

        if (bytes.Length > 0)
            await WriteAsync(bytes);
    }

    /// <summary>Holds the journal against what really happened here.</summary>
    /// <param name="journal">All entries that name this instrument.</param>
    public AuditResult Audit(IReadOnlyList<JournalEntry> journal) =>
        JournalAudit.Compare(instrument.Truth, Serial, journal);

    public async ValueTask DisposeAsync() => await side.DisposeAsync();

    private void Examine(TimeSpan passed)
    {
        if (exam is null or { IsFinished: true })
        {
            exam = new SimulatedExam(NamedScenarios.FromSeed(seed + Exams), instrument);
            Exams++;
        }

        exam.Step(passed);
        if (exam.AboutToSay is not null)
            exam.Said();
    }

    private async Task WriteAsync(byte[] bytes)
    {
        try
        {
            await side.WriteAsync(bytes, WriteLimit);
        }
        catch (PortLostException)
        {
            // As on a real line: the link repeats events.
        }
    }

    private async Task HearAsync()
    {
        var buffer = new byte[4096];
        int count;
        while ((count = await side.ReadAsync(buffer)) > 0)
        {
            lock (gate)
            {
                instrument.Receive(buffer.AsSpan(0, count), Stopwatch.GetElapsedTime(start));
                var moment = Stopwatch.GetTimestamp();
                var upTo = instrument.Truth.LastSequence - instrument.Link.KeptCount;
                for (; acknowledged < upTo && happened.TryDequeue(out var since); acknowledged++)
                    acknowledgedAfter.Add(Stopwatch.GetElapsedTime(since, moment).TotalMilliseconds);
            }
        }
    }

    private T With<T>(Func<T> look)
    {
        lock (gate)
            return look();
    }
}
