using System.Globalization;
using System.Runtime.Versioning;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Desk;
using PupilBridge.Hosting;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Worker;

namespace PupilBridge.Demo;

/// <summary>One demo from the plan to the finished exam, everything in this process: instrument, eyes, examiner, service.</summary>
/// <param name="plan">What to show.</param>
/// <param name="call">The invocation.</param>
[SupportedOSPlatform("linux")]
internal sealed class DemoRun(DemoPlan plan, Call call)
{
    /// <summary>The name of the line, the same on every run.</summary>
    private const string LineName = "/dev/pupilbridge-demo";

    // Times of day of a demo that goes faster than life stay in the past; no exam takes longer than this.
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(10);

    private readonly SteppedTime time = new(call.Time.GetUtcNow() - (plan.Pace > 1 ? LongestExam : TimeSpan.Zero));
    private readonly SimulatedInstrument instrument = new(plan.Model, Serial(plan), plan.Seed);

    /// <summary>Runs the demo.</summary>
    /// <param name="cancel">Ends it early.</param>
    /// <returns>The finished exam, read back from the exam log.</returns>
    /// <exception cref="DemoFailure">It could not go on.</exception>
    public async Task<ExamView> RunAsync(CancellationToken cancel)
    {
        WriteHostNumber();
        var line = new DemoLine(instrument, Path.Combine(plan.Folder, "run", "line"));
        await using (line.ConfigureAwait(false))
        {
            using var host = BuildHost(line);
            await host.StartAsync(cancel).ConfigureAwait(false);
            call.Remark($"The instrument speaks on {line.Device}. Data folder: {plan.Folder}");
            try
            {
                return await ExamineAsync(host, line, cancel).ConfigureAwait(false);
            }
            finally
            {
                await host.StopAsync(CancellationToken.None).ConfigureAwait(false);
            }
        }
    }

    private async Task<ExamView> ExamineAsync(IHost host, DemoLine line, CancellationToken cancel)
    {
        var desk = host.Services.GetRequiredService<DeskService>().Clinic;
        var bridge = host.Services.GetRequiredService<BridgeService>().Bridge;
        var drive = new DemoDrive(line, instrument, time, plan.Pace, IsShown);
        bool IsShown() => bridge.Health is var health && health.Applied >= health.Durable;
        var course = new DemoCourse(call.Remark, time);
        var examiner = new DemoExaminer(desk, plan, time, DeskHello.Own.Program);

        await drive
            .MeetAsync(() => bridge.Board.Look().Instruments.Any(i => i.Serial == instrument.Serial), cancel)
            .ConfigureAwait(false);
        course.Tell($"met        {plan.Model.Name} {instrument.Serial}");
        var number = await examiner.OpenAsync(instrument.Serial.Value, cancel).ConfigureAwait(false);
        course.Tell($"opened     exam {number} of patient {plan.Scenario.PatientNumber} by {examiner.Initials}");

        var exam = new SimulatedExam(plan.Scenario, instrument);
        await drive.ExamineAsync(exam, number, desk, examiner, course, cancel).ConfigureAwait(false);
        var view =
            await desk.ShowExamAsync(number, cancel).ConfigureAwait(false)
            ?? throw new DemoFailure($"Exam {number} was recorded and is not in the exam log.");
        if (plan.Stay)
        {
            DemoSummary.Print(call.Terminal, view);
            await call.Terminal.Out.FlushAsync(cancel).ConfigureAwait(false);
            call.Remark($"The service stays up; look with 'pupilbridge watch --data {plan.Folder}'. Ctrl-C ends it.");
            await StayAsync(line, cancel).ConfigureAwait(false);
        }

        return view;
    }

    private async Task StayAsync(DemoLine line, CancellationToken cancel)
    {
        try
        {
            await new DemoDrive(line, instrument, time, pace: 1, () => true).IdleAsync(cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // Ctrl-C is how it ends.
        }
    }

    private IHost BuildHost(DemoLine line)
    {
        var values = new Dictionary<string, string?> { ["Bridge:Ports"] = LineName };
        var settings = Settings.ForDemo(plan.Folder, values);
        var openers = new PortOpeners(new PortSettings());
        return BridgeHost.Build(
            settings,
            time,
            logging => logging.AddFilter((_, level) => level >= LogLevel.Warning).AddProvider(new RemarkLog(call)),
            parts =>
                parts with
                {
                    Openers = _ => new NamedOpener(openers.For(line.Address), LineName, line.Meter),
                    FindPorts = () => [LineName],
                }
        );
    }

    /// <summary>An installation's number is drawn at random; that of a demo comes from its seed.</summary>
    private void WriteHostNumber()
    {
        var number = (uint)(new Chance(plan.Seed, "host").NextBits() | 1);
        File.WriteAllText(
            Path.Combine(plan.Folder, "host-id"),
            string.Create(CultureInfo.InvariantCulture, $"{new HostId(number)}\n")
        );
    }

    private static SerialNumber Serial(DemoPlan plan) =>
        new($"{(plan.Model.Name.EndsWith('A') ? "QA" : "QB")}-{1000 + (plan.Seed & 0xFFF)}");
}
