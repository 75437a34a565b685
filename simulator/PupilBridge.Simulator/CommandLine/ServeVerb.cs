using System.CommandLine;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.CommandLine;

/// <summary><c>serve</c>: one instrument on one line, until it is stopped.</summary>
internal sealed class ServeVerb(
    ServeOptions options,
    TextReader input,
    TextWriter output,
    TextWriter error,
    TimeProvider time
)
{
    private const int BitsPerByte = 10;

    public async Task<int> RunAsync(ParseResult parsed, CancellationToken stop)
    {
        if (parsed.GetValue(options.List))
        {
            Catalogue.Print(output);
            return 0;
        }

        try
        {
            var side = OpenLine(parsed);
            await using (side.ConfigureAwait(false))
            {
                await ServeAsync(parsed, side, stop).ConfigureAwait(false);
            }

            return 0;
        }
        catch (PortOpenException fault)
        {
            await error.WriteLineAsync(fault.Message).ConfigureAwait(false);
            return 1;
        }
    }

    private async Task ServeAsync(ParseResult parsed, IInstrumentSide side, CancellationToken stop)
    {
        var seed = parsed.GetValue(options.Seed);
        var faults = FaultSet.Create(parsed.GetValue(options.Fault) ?? [], seed ?? 1);
        var baud = parsed.GetValue(options.Baud);
        var plain = new InstrumentOptions
        {
            BytesPerSecond = baud / BitsPerByte,
            ScaleErrors = options.Bench.ErrorsIn(parsed),
        };
        var instrument = new SimulatedInstrument(
            InstrumentModels.Find(parsed.GetValue(options.Model)!)!,
            new SerialNumber(parsed.GetValue(options.Serial)!),
            seed ?? 1,
            faults.Spoil(plain)
        );
        var scenario = Chosen(parsed.GetValue(options.Scenario), seed);
        var served = new ServedInstrument(instrument, side, time, faults, parsed.GetValue(options.Pace))
        {
            WaitsForExam = scenario is not null && !IsAsInLife(parsed),
        };
        await using (served.ConfigureAwait(false))
        {
            instrument.SwitchOn();
            await output
                .WriteLineAsync(
                    $"{instrument.Model.Name} {instrument.Serial} listens on {side.Address}. Ctrl-C switches it off."
                )
                .ConfigureAwait(false);
            var examining = scenario is null
                ? Task.CompletedTask
                : ExamineAsync(served, scenario, IsAsInLife(parsed), stop);
            // They end with the input, which may be never: nobody waits for them. A console's reader waits without giving the
            // thread back, and the instrument must live meanwhile.
            _ = parsed.GetValue(options.Bench.Discs)
                ? Task.Run(() => MeasureAsync(served, parsed, seed ?? 1, stop), stop)
                : Task.CompletedTask;
            _ = parsed.GetValue(options.Hands) ? Task.Run(() => ActAsync(served, stop), stop) : Task.CompletedTask;
            await served.RunAsync(stop).ConfigureAwait(false);
            await examining.ConfigureAwait(false);
            await ReportAsync(faults).ConfigureAwait(false);
        }
    }

    // A named scenario with a seed keeps its person and examiner; unrest and scatter go by the seed.
    private static Scenario? Chosen(string? name, long? seed) =>
        (name is null ? null : NamedScenarios.Find(name), seed) switch
        {
            ({ } named, { } s) => named with { Seed = s },
            ({ } named, null) => named,
            (null, { } s) => NamedScenarios.FromSeed(s),
            _ => null,
        };

    // A tick follows time (docs/protocol.md, section 18), whoever records what, or nobody. At another pace it cannot; there the
    // body's time stands still while the examiner waits, so that the exam does not run away from who records it.
    private bool IsAsInLife(ParseResult parsed) => parsed.GetValue(options.Pace).Equals(1);

    private async Task ExamineAsync(ServedInstrument served, Scenario scenario, bool asInLife, CancellationToken stop)
    {
        try
        {
            await served.WhenGreetedAsync(stop).ConfigureAwait(false);
            await output
                .WriteLineAsync(
                    $"A host has greeted: {scenario.PatientNumber} sits down, {scenario.Examiner.Initials} examines."
                )
                .ConfigureAwait(false);
            var exam = served.With(i => new SimulatedExam(scenario, i) { GoesOnWhileSpeaking = asInLife });
            await served.ExamineAsync(exam, new SpokenText(output), allRecorded: null, stop).ConfigureAwait(false);
            await output.WriteLineAsync("The exam is over; the instrument stays on.").ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped in mid exam, as was asked.
        }
    }

    private async Task MeasureAsync(ServedInstrument served, ParseResult parsed, long seed, CancellationToken stop)
    {
        try
        {
            var scatter = parsed.GetValue(options.Bench.Scatter);
            var technician = served.With(i => new SimulatedBench(i, scatter, seed));
            await new DiscLines(served, technician, output).MeasureAsync(input, stop).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped in mid disc, as was asked.
        }
    }

    private async Task ActAsync(ServedInstrument served, CancellationToken stop)
    {
        try
        {
            await new HandLines(served, output).ActAsync(input, stop).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped, as was asked.
        }
    }

    private IInstrumentSide OpenLine(ParseResult parsed)
    {
        if (parsed.GetValue(options.Tcp) is { } port)
        {
            return new TcpPortListener(port);
        }

        if (!OperatingSystem.IsLinux())
        {
            throw new PortOpenException(
                "pseudo-terminal",
                PortOpenFault.Other,
                "Pseudo-terminals are served on Linux only. Serve over TCP: --tcp PORT."
            );
        }

        var link = parsed.GetValue(options.Link);
        return new PseudoTerminal(link is null ? null : Path.GetFullPath(link), parsed.GetValue(options.Baud));
    }

    private async Task ReportAsync(FaultSet faults)
    {
        foreach (var (name, count) in faults.Fired)
        {
            await output.WriteLineAsync($"fault {name}: happened {count} times").ConfigureAwait(false);
        }
    }
}
