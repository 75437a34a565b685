using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>
/// In which order a bench run measures. Discs come in rounds, each round in a random order of its own, so that warming up or a drift
/// within the run falls on all discs alike and is not taken for a lack of straightness (randomised blocks, NIST/SEMATECH e-Handbook of
/// Statistical Methods, 5.3.3.2; from memory).
/// </summary>
public static class BenchPlans
{
    /// <summary>Most repeats of each disc by each scale. Ours.</summary>
    public const int MostRepeats = 20;

    /// <summary>The plan of a calibration.</summary>
    /// <param name="set">The discs.</param>
    /// <param name="repeats">How often each is read by each scale, 2 or more.</param>
    /// <param name="seed">The number from which the order is drawn; the same number gives the same order.</param>
    /// <returns>The steps.</returns>
    public static ValueList<BenchStep> Calibration(DiscSet set, int repeats, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentOutOfRangeException.ThrowIfLessThan(repeats, 1);
        var draw = new SeededDraw(seed);
        var round = set.Discs.SelectMany(disc => Both(disc.Name)).ToArray();
        List<BenchStep> plan = [];
        for (var i = 0; i < repeats; i++)
        {
            draw.Shuffle(round);
            plan.AddRange(round);
        }

        return [.. plan];
    }

    /// <summary>The plan of a quick check: one disc, each scale in turn.</summary>
    /// <param name="disc">The disc's name.</param>
    /// <param name="repeats">How often by each scale.</param>
    /// <returns>The steps.</returns>
    public static ValueList<BenchStep> QuickCheck(string disc, int repeats) =>
        [.. Enumerable.Range(0, repeats).SelectMany(_ => Both(disc))];

    /// <summary>The plan of a study on a person: all settings in bright light, then all in dim, the eyes in turn.</summary>
    /// <param name="repeats">How often each eye in each light.</param>
    /// <returns>The steps.</returns>
    public static ValueList<BenchStep> Live(int repeats) =>
        [
            .. new[] { RoomLight.Bright, RoomLight.Dim }.SelectMany(light =>
                Enumerable
                    .Range(0, repeats)
                    .SelectMany(_ => new[] { Eye.Right, Eye.Left }.Select(eye => new BenchStep(eye, null, light)))
            ),
        ];

    private static IEnumerable<BenchStep> Both(string disc) => [new(Eye.Right, disc, null), new(Eye.Left, disc, null)];

    /// <summary>A small generator of our own (SplitMix64), since the order must come out the same in every version of the runtime.</summary>
    private sealed class SeededDraw(ulong state)
    {
        public void Shuffle(BenchStep[] items)
        {
            for (var last = items.Length - 1; last > 0; last--)
            {
                var other = (int)(Next() % (ulong)(last + 1));
                (items[last], items[other]) = (items[other], items[last]);
            }
        }

        private ulong Next()
        {
            var z = state += 0x9E3779B97F4A7C15;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
