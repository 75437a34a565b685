using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.Tests.Lines;

/// <summary>A whole exam against the plain host, in virtual time.</summary>
internal sealed class WholeExam
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(15);

    private readonly FaultSet faults;
    private byte[] fromHost = [];

    private WholeExam(InstrumentModel model, Scenario scenario, FaultSet faults)
    {
        this.faults = faults;
        Exam = new InMemoryExam(model, new SerialNumber("QA-0042"), scenario, faults);
    }

    public InMemoryExam Exam { get; }

    public PlainHost Host { get; } = new();

    public TimeSpan Now { get; private set; }

    public IReadOnlyList<SpokenJudgement> Spoken => Exam.Exam.Spoken;

    public static WholeExam Run(InstrumentModel model, Scenario scenario, FaultSet? faults = null)
    {
        var whole = new WholeExam(model, scenario, faults ?? FaultSet.None);
        whole.RunToEnd();
        return whole;
    }

    public IEnumerable<T> Said<T>()
        where T : SpokenJudgement => Spoken.OfType<T>();

    private void RunToEnd()
    {
        while (!Exam.Exam.IsFinished)
        {
            Assert.True(Now < Limit, "the exam hangs");
            Exchange();
            if (Exam.Exam.AboutToSay is not null && Exam.Instrument.IsAllAcknowledged)
            {
                Exam.Exam.Said();
            }
        }

        // Faults end; the instrument gets time to send again.
        faults.IsActive = false;
        for (var end = Now + TimeSpan.FromSeconds(20); Now < end; )
        {
            Exchange();
        }
    }

    private void Exchange()
    {
        Now += Step;
        var wasPlugged = Exam.Line.IsPlugged;
        var arrived = new List<byte>();
        foreach (var piece in Exam.ExchangePieces(fromHost, Now))
        {
            arrived.AddRange(piece);
        }

        fromHost = Host.Exchange([.. arrived], Now);
        if (!wasPlugged && Exam.Line.IsPlugged)
        {
            Host.Reopen();
        }
    }
}
