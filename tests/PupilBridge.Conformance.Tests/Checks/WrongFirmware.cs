using System.Text;
using PupilBridge.Conformance.Steps;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>One wrong firmware.</summary>
/// <param name="Name">What is wrong with it.</param>
/// <param name="FoundBy">The key of the check that must find it.</param>
/// <param name="Make">Makes it anew, without memory of an earlier run.</param>
internal sealed record WrongFirmware(string Name, string FoundBy, Func<Misbehaviour> Make)
{
    public InstrumentModel Model { get; init; } = InstrumentModels.QuayA;

    public InstrumentOptions? Options { get; init; }

    /// <summary>Whether it is wrong inside the simulated instrument, not in front of it.</summary>
    public bool IsInside { get; init; }

    public static IReadOnlyList<WrongFirmware> All { get; } =
    [.. WrongLines.All, .. WrongEvents.All, .. WrongHearing.All, .. WrongHolding.All];

    /// <summary>The instrument takes a line of a host that was never sent.</summary>
    public static void Hear(SimulatedInstrument instrument, string body, TimeSpan now) =>
        instrument.Receive(Encoding.ASCII.GetBytes(RawHost.WithCheck(body) + "\n"), now);

    /// <summary>Something that happens every so often.</summary>
    public static Misbehaviour Every(double seconds, Action<SimulatedInstrument, TimeSpan> act)
    {
        var next = TimeSpan.FromSeconds(seconds);
        return new Misbehaviour
        {
            Act = (instrument, now) =>
            {
                if (now >= next)
                {
                    next = now + TimeSpan.FromSeconds(seconds);
                    act(instrument, now);
                }
            },
        };
    }

    /// <summary>Something that happens once.</summary>
    public static Misbehaviour Once(double at, Action<SimulatedInstrument> act)
    {
        var isDone = false;
        return new Misbehaviour
        {
            Act = (instrument, now) =>
            {
                if (!isDone && now >= TimeSpan.FromSeconds(at))
                {
                    isDone = true;
                    act(instrument);
                }
            },
        };
    }
}
