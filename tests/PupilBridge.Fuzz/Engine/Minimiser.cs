namespace PupilBridge.Fuzz.Engine;

/// <summary>Makes an input that fails small: takes pieces out as long as it fails in the same way (Zeller, Hildebrandt 2002, simplified).</summary>
internal static class Minimiser
{
    private const int MostRuns = 4000;

    public static Failure Shrink(IFuzzTarget target, byte[] input, Exception reason)
    {
        var (best, why) = (input, reason);
        var kind = Finding.KindOf(reason);
        var runs = 0;
        for (var piece = Math.Max(1, input.Length / 2); piece >= 1; piece /= 2)
        {
            for (var at = 0; at < best.Length && runs < MostRuns; runs++)
            {
                byte[] without = [.. best.AsSpan(0, at), .. best.AsSpan(Math.Min(best.Length, at + piece))];
                if (Fails(target, without) is { } again && Finding.KindOf(again) == kind)
                    (best, why) = (without, again);
                else
                    at += piece;
            }
        }

        return new Failure(best, why);
    }

    /// <summary>Gives an input once.</summary>
    /// <returns>Why it failed; null if it did not.</returns>
    public static Exception? Fails(IFuzzTarget target, byte[] input)
    {
        try
        {
            target.Run(input);
            return null;
        }
        catch (Exception e)
        {
            return e;
        }
    }
}
