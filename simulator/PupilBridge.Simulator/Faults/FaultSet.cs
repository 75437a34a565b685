using System.Collections.Immutable;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Faults;

/// <summary>Some faults at once, each with a stream of chance of its own.</summary>
public sealed class FaultSet
{
    private readonly ImmutableArray<ByteFault> toHost;
    private readonly ImmutableArray<ByteFault> fromHost;
    private readonly ImmutableArray<StageFault> onStage;
    private readonly ImmutableArray<FaultEntry> entries;
    private bool isActive = true;

    private FaultSet(ImmutableArray<FaultEntry> entries, long seed, double intensity)
    {
        this.entries = entries;
        toHost = Made(e => e.ToHost, "to the host");
        fromHost = Made(e => e.FromHost, "from the host");
        onStage = Made(e => e.OnStage, "on stage");

        ImmutableArray<T> Made<T>(Func<FaultEntry, Func<Chance, double, T>?> maker, string where) =>
            [
                .. entries
                    .Where(e => maker(e) is not null)
                    .Select(e => maker(e)!(new Chance(seed, $"{e.Name} {where}"), intensity)),
            ];
    }

    /// <summary>No faults.</summary>
    public static FaultSet None { get; } = new([], 0, 1);

    /// <summary>Whether they may happen; switched off, all passes and what they did is undone.</summary>
    public bool IsActive
    {
        get => isActive;
        set
        {
            isActive = value;
            foreach (var fault in All)
            {
                fault.IsActive = value;
            }
        }
    }

    /// <summary>How often each really happened, both directions together. What an instrument is from the start counts once.</summary>
    public IReadOnlyDictionary<string, long> Fired =>
        entries.ToDictionary(
            e => e.Name,
            e => e.Options is null ? All.Where(f => f.Name == e.Name).Sum(f => f.Fired) : 1,
            StringComparer.Ordinal
        );

    private IEnumerable<Fault> All => toHost.Concat<Fault>(fromHost).Concat(onStage);

    /// <summary>Makes faults by name.</summary>
    /// <param name="names">Names out of the catalogue; <c>all</c> stands for the whole storm.</param>
    /// <param name="seed">Seed of their chance.</param>
    /// <param name="intensity">How often they happen, relative to the catalogue; above 0.</param>
    /// <returns>The faults.</returns>
    /// <exception cref="ArgumentException">There is no fault of a name; the message lists those that there are.</exception>
    public static FaultSet Create(IEnumerable<string> names, long seed, double intensity = 1)
    {
        ArgumentNullException.ThrowIfNull(names);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(intensity);
        var wanted = names
            .SelectMany(n =>
                n.Equals("all", StringComparison.OrdinalIgnoreCase) ? FaultCatalogue.Storm.AsEnumerable() : [n]
            )
            .Distinct(StringComparer.OrdinalIgnoreCase);
        return new FaultSet([.. wanted.Select(Entry)], seed, intensity);
    }

    /// <summary>What the faults make of an instrument before it is switched on.</summary>
    /// <param name="options">The options without faults.</param>
    /// <returns>The options with them.</returns>
    public InstrumentOptions Spoil(InstrumentOptions options) =>
        entries.Where(e => e.Options is not null).Aggregate(options, (o, e) => e.Options!(o));

    /// <summary>Passes bytes of the instrument on to the host.</summary>
    /// <param name="bytes">The bytes; may be none.</param>
    /// <param name="now">The time.</param>
    /// <param name="leaving">Takes the pieces that the host reads.</param>
    public void ToHost(ReadOnlySpan<byte> bytes, TimeSpan now, PieceSink leaving) =>
        Pass(toHost, 0, bytes, now, leaving);

    /// <summary>Passes bytes of the host on to the instrument.</summary>
    /// <param name="bytes">The bytes; may be none.</param>
    /// <param name="now">The time.</param>
    /// <param name="leaving">Takes the pieces that the instrument reads.</param>
    public void FromHost(ReadOnlySpan<byte> bytes, TimeSpan now, PieceSink leaving) =>
        Pass(fromHost, 0, bytes, now, leaving);

    /// <summary>Lets the faults of instrument and cable do what is due.</summary>
    /// <param name="stage">What they act on.</param>
    /// <param name="now">The time.</param>
    public void Act(IFaultStage stage, TimeSpan now)
    {
        foreach (var fault in onStage)
        {
            fault.Act(stage, now);
        }
    }

    private static void Pass(
        ImmutableArray<ByteFault> faults,
        int index,
        ReadOnlySpan<byte> bytes,
        TimeSpan now,
        PieceSink leaving
    )
    {
        if (index == faults.Length)
        {
            if (!bytes.IsEmpty)
            {
                leaving(bytes);
            }

            return;
        }

        // Each fault is asked at least once, also when nothing came, so that it can let go of what it held.
        var came = false;
        faults[index]
            .Pass(
                bytes,
                now,
                piece =>
                {
                    came = true;
                    Pass(faults, index + 1, piece, now, leaving);
                }
            );
        if (!came)
        {
            Pass(faults, index + 1, [], now, leaving);
        }
    }

    private static FaultEntry Entry(string name) =>
        FaultCatalogue.Find(name)
        ?? throw new ArgumentException(
            $"There is no fault '{name}'. There are: {string.Join(", ", FaultCatalogue.All.Select(f => f.Name))}, and all."
        );
}
