using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>How far a scale came, against the ends that the identity declares.</summary>
/// <param name="Eye">Whose scale.</param>
/// <param name="Declared">What its latest <c>SCALE</c> says.</param>
/// <param name="Lowest">The lowest position at which it came to rest; null if it never did.</param>
/// <param name="Highest">The highest one.</param>
internal sealed record ScaleRange(Eye Eye, ScaleDescription Declared, Micrometres? Lowest, Micrometres? Highest)
{
    /// <summary>How near to an end counts as there, as a part of the range; our choice: a hand does not press against the stop.</summary>
    private const double Near = 0.02;

    /// <summary>Whether it came to rest at both ends.</summary>
    public bool IsWhole
    {
        get
        {
            var near = Near * (Declared.Highest - Declared.Lowest).Value;
            return Lowest is { } low
                && Highest is { } high
                && low.Value <= Declared.Lowest.Value + near
                && high.Value >= Declared.Highest.Value - near;
        }
    }

    /// <summary>The ranges of the scales that the lines declare.</summary>
    /// <param name="log">All lines of the run.</param>
    public static IReadOnlyList<ScaleRange> Of(IReadOnlyList<Crossed> log)
    {
        var ranges = new List<ScaleRange>();
        foreach (var eye in EyeFacts.Both)
        {
            if (log.LastOrDefault(c => c.Is(InstrumentLineKind.Scale) && c.Said.Scale.Eye == eye) is not { } scale)
            {
                continue;
            }

            var rests = log.Where(c => c.Is(InstrumentLineKind.Event))
                .Select(c => c.Said.Event)
                .Where(e => e.Kind == InstrumentEventKind.ScaleAtRest && e.Eye == eye)
                .Select(e => e.Position)
                .ToList();
            ranges.Add(
                new(
                    eye,
                    scale.Said.Scale.Scale,
                    rests.Count == 0 ? null : rests.Min(),
                    rests.Count == 0 ? null : rests.Max()
                )
            );
        }

        return ranges;
    }

    /// <summary>Whether both scales came to rest at both ends.</summary>
    /// <param name="log">All lines of the run.</param>
    public static bool IsReached(IReadOnlyList<Crossed> log) => Of(log) is [{ IsWhole: true }, { IsWhole: true }];
}
