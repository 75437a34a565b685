using System.Collections.Immutable;

namespace PupilBridge.Instrument.Tests.Links;

/// <summary>The instrument and the hosts of these tests.</summary>
internal static class Known
{
    internal static readonly HostId Host = new(0x00C0FFEE);
    internal static readonly HostId OtherHost = new(0x0BADCAFE);
    internal static readonly BootNumber Boot = new(0x8F3A11C02B77D4E9);
    internal static readonly BootNumber NextBoot = new(0x1D20C4B89E6A7F35);
    internal static readonly SerialNumber Serial = new("QA-0001");

    internal static readonly InstrumentIdentity Identity = new()
    {
        Version = 1,
        Serial = Serial,
        Model = "Quay-A",
        Firmware = "1.4.0",
        Boot = Boot,
        Abilities =
            InstrumentAbilities.MarkKeys
            | InstrumentAbilities.LightSensor
            | InstrumentAbilities.StimulusProfile
            | InstrumentAbilities.SwitchOff,
        Stops =
        [
            new DialStop(1, InstrumentMode.Idle, Block.None),
            new DialStop(2, InstrumentMode.Measure, Block.None),
            new DialStop(3, InstrumentMode.Sequence, Block.Direct),
        ],
        Scales = new PerEye<ScaleDescription>
        {
            Right = new(new(200), ScaleDirection.Temporal, new(10), new(0), new(12_000)),
            Left = new(new(200), ScaleDirection.Temporal, new(10), new(0), new(12_000)),
        },
    };

    internal static InstrumentEvent Rest(long sequence, int micrometres = 5_000) =>
        InstrumentEvent.ScaleAtRest(new Tick(sequence * 100), Eye.Right, new Micrometres(micrometres)) with
        {
            Boot = Boot,
            Sequence = sequence,
        };

    internal static InstrumentEvent Gap(long first, long last) =>
        InstrumentEvent.EventsLost(new Tick(last * 100), first) with
        {
            Boot = Boot,
            Sequence = last,
        };

    internal static ImmutableDictionary<long, uint> NoPrints => ImmutableDictionary<long, uint>.Empty;
}
