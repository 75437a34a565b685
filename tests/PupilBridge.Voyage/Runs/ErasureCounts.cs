namespace PupilBridge.Voyage.Runs;

/// <summary>Orders to erase a patient.</summary>
/// <param name="Ordered">How many were given, each counted once.</param>
/// <param name="Done">How many were answered as done.</param>
/// <param name="Refused">How many were refused: nobody has the number, an exam is open, it is merged, it was erased before.</param>
/// <param name="CutOff">How often the service was gone before the answer came; the order was sent again.</param>
internal readonly record struct ErasureCounts(int Ordered, int Done, int Refused, int CutOff)
{
    /// <summary>What of it never happened: a run without it proves nothing about erasing.</summary>
    public IEnumerable<string> Never =>
        new[] { ("erasure-done", Done), ("erasure-refused", Refused), ("erasure-cut-off", CutOff) }
            .Where(one => one.Item2 == 0)
            .Select(one => one.Item1);

    public static ErasureCounts operator +(ErasureCounts one, ErasureCounts other) =>
        new(one.Ordered + other.Ordered, one.Done + other.Done, one.Refused + other.Refused, one.CutOff + other.CutOff);
}
