using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Demo;

/// <summary>What a demo shall show.</summary>
internal sealed record DemoPlan
{
    /// <summary>How much faster than life a demo goes when nobody says otherwise.</summary>
    public const double UsualPace = 40;

    /// <summary>The fastest pace that can be asked for.</summary>
    public const double HighestPace = 1000;

    /// <summary>The person and the examiner.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>The seed of everything that is drawn.</summary>
    public required long Seed { get; init; }

    /// <summary>The kind of instrument.</summary>
    public required InstrumentModel Model { get; init; }

    /// <summary>How many times faster than in life time passes, above 0. It is an upper limit: a slow machine goes slower.</summary>
    public required double Pace { get; init; }

    /// <summary>Whether the service stays up when the chart is printed.</summary>
    public bool Stay { get; init; }

    /// <summary>The full path of the folder that this run is kept in.</summary>
    public required string Folder { get; init; }
}
