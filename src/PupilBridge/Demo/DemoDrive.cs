using System.Diagnostics;
using System.Runtime.Versioning;
using PupilBridge.Clinic;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Demo;

/// <summary>
/// Drives one demo exam: lets the demo's time go in small steps, in which eyes, instrument and service move together. Time
/// stands still while something that happened is not acknowledged yet, and while the examiner's words are put down; so the
/// same seed gives the same journal on a fast machine and on a slow one.
/// </summary>
[SupportedOSPlatform("linux")]
internal sealed class DemoDrive
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(10);

    /// <summary>How long time stands still for an acknowledgement; then it goes on, so that lost bytes are sent again.</summary>
    private static readonly TimeSpan AckPatience = TimeSpan.FromSeconds(1);

    /// <summary>How long the service may take to meet the instrument, by the clock on the wall.</summary>
    private static readonly TimeSpan MeetWithin = TimeSpan.FromSeconds(30);

    /// <summary>From switching the instrument on to the exam, by the demo's clock.</summary>
    private static readonly TimeSpan ReadyAfter = TimeSpan.FromSeconds(2);

    private readonly DemoLine line;
    private readonly SimulatedInstrument instrument;
    private readonly SteppedTime time;
    private readonly double pace;
    private readonly Func<bool> isShown;
    private readonly Stopwatch wall = Stopwatch.StartNew();
    private TimeSpan wallAhead;

    /// <summary>Makes the drive; nothing moves yet.</summary>
    /// <param name="line">The line.</param>
    /// <param name="instrument">The instrument at its end.</param>
    /// <param name="time">The clock of everything.</param>
    /// <param name="pace">How many times faster than in life time may go.</param>
    /// <param name="isShown">Whether all that is on disk has reached the exam that the desk shows.</param>
    public DemoDrive(
        DemoLine line,
        SimulatedInstrument instrument,
        SteppedTime time,
        double pace,
        Func<bool> isShown
    ) => (this.line, this.instrument, this.time, this.pace, this.isShown) = (line, instrument, time, pace, isShown);

    /// <summary>
    /// Lets time go until the service has opened the port, switches the instrument on, and goes on until the service has met
    /// it and taken what it had to say.
    /// </summary>
    /// <param name="isMet">Whether the service shows the instrument.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="DemoFailure">They did not meet.</exception>
    public async Task MeetAsync(Func<bool> isMet, CancellationToken cancel)
    {
        // Until the port is open there is nothing to keep in step: time goes as on the wall.
        while (!line.Meter.IsOpen)
        {
            GiveUpAfter(MeetWithin);
            await Task.Delay(Step, cancel).ConfigureAwait(false);
            time.Advance(Step);
        }

        instrument.SwitchOn();
        var switchedOn = time.Elapsed;
        // Always the same time from switching on to the exam, so that the ticks are the same, too.
        while (time.Elapsed - switchedOn < ReadyAfter || !isMet() || !instrument.IsAllAcknowledged)
        {
            GiveUpAfter(MeetWithin);
            await StepAsync(null, cancel).ConfigureAwait(false);
        }
    }

    private void GiveUpAfter(TimeSpan limit)
    {
        if (wall.Elapsed > limit)
        {
            throw new DemoFailure("The service did not meet the simulated instrument on its pseudo-terminal.");
        }
    }

    /// <summary>Drives the exam to its end.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="number">Its number in the log.</param>
    /// <param name="desk">Where it is read back.</param>
    /// <param name="examiner">Who puts down what is said.</param>
    /// <param name="course">Tells what goes on.</param>
    /// <param name="cancel">Gives up.</param>
    public async Task ExamineAsync(
        SimulatedExam exam,
        long number,
        IClinicDesk desk,
        DemoExaminer examiner,
        DemoCourse course,
        CancellationToken cancel
    )
    {
        var told = (instrument.Mode, instrument.Block);
        var seen = instrument.Link.Last;
        while (!exam.IsFinished)
        {
            await StepAsync(exam, cancel).ConfigureAwait(false);
            if ((instrument.Mode, instrument.Block) != told)
            {
                told = (instrument.Mode, instrument.Block);
                course.Tell($"dial       {Dial(told.Mode, told.Block)}");
            }

            if (!instrument.IsAllAcknowledged)
            {
                continue;
            }

            if (instrument.Link.Last != seen || exam.AboutToSay is not null)
            {
                seen = instrument.Link.Last;
                await LookAsync(desk, number, course, cancel).ConfigureAwait(false);
            }

            if (exam.AboutToSay is { } spoken)
            {
                var (words, sequence) = await examiner.SayAsync(spoken, number, cancel).ConfigureAwait(false);
                course.Tell($"{examiner.Initials} says    {words}  (recorded, entry {sequence})");
                exam.Said();
                await LookAsync(desk, number, course, cancel).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Lets the instrument live on as in life, until someone ends it.</summary>
    /// <param name="cancel">Ends it.</param>
    public async Task IdleAsync(CancellationToken cancel)
    {
        while (!cancel.IsCancellationRequested)
        {
            await StepAsync(null, cancel).ConfigureAwait(false);
        }
    }

    private async Task LookAsync(IClinicDesk desk, long exam, DemoCourse course, CancellationToken cancel)
    {
        var since = wall.Elapsed;
        while (!isShown() && wall.Elapsed - since < AckPatience)
        {
            await Task.Delay(1, cancel).ConfigureAwait(false);
        }

        if (await desk.ShowExamAsync(exam, cancel).ConfigureAwait(false) is { } view)
        {
            course.Look(view);
        }
    }

    private async Task StepAsync(SimulatedExam? exam, CancellationToken cancel)
    {
        if (exam is null)
        {
            instrument.Advance(Step);
        }
        else
        {
            exam.Step(Step);
        }

        time.Advance(Step);
        await line.ExchangeAsync(time.Elapsed).ConfigureAwait(false);
        await line.SettledAsync(time.Elapsed, AckPatience).ConfigureAwait(false);
        await KeepPaceAsync(cancel).ConfigureAwait(false);
    }

    private async Task KeepPaceAsync(CancellationToken cancel)
    {
        // Waiting for less than some milliseconds is not possible; so a little is saved up first.
        wallAhead += Step / pace;
        var early = wallAhead - wall.Elapsed;
        if (early > TimeSpan.FromMilliseconds(4))
        {
            await Task.Delay(early, cancel).ConfigureAwait(false);
        }
        else if (early < TimeSpan.Zero)
        {
            // Time in which it stood still is not made up for.
            wallAhead = wall.Elapsed;
            cancel.ThrowIfCancellationRequested();
        }
    }

    private static string Dial(Instrument.InstrumentMode mode, Instrument.Block block) =>
        block == Instrument.Block.None
            ? Clinic.Words.ClinicWords.Modes[mode]
            : $"{Clinic.Words.ClinicWords.Modes[mode]}, {Clinic.Words.ClinicWords.Blocks[block]}";
}
