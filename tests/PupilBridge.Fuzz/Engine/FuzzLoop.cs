namespace PupilBridge.Fuzz.Engine;

/// <summary>What one worker did.</summary>
/// <param name="Inputs">How many inputs it gave.</param>
/// <param name="Units">How many lines, records or bodies stood in them.</param>
/// <param name="Kept">How many inputs it kept because their behaviour was new.</param>
/// <param name="Behaviours">How many ways of behaving it saw.</param>
/// <param name="Failure">The first input that failed, made small; null if none did.</param>
internal sealed record LoopResult(long Inputs, long Units, int Kept, int Behaviours, Failure? Failure);

/// <summary>An input that failed.</summary>
/// <param name="Input">The input, made small.</param>
/// <param name="Reason">What was wrong.</param>
internal sealed record Failure(byte[] Input, Exception Reason);

/// <summary>One worker: takes an input that showed something, changes it, gives it, keeps it if it showed something new.</summary>
/// <param name="target">What is tried.</param>
/// <param name="seed">The same seed gives the same inputs.</param>
/// <param name="watched">Where the watchdog looks; null without one.</param>
internal sealed class FuzzLoop(IFuzzTarget target, ulong seed, Watchdog.Watched? watched = null)
{
    private readonly Corpus corpus = new();
    private Dice dice = new(seed);
    private long inputs;

    /// <summary>Goes on until so many units were given, or an input fails.</summary>
    /// <param name="units">How many lines, records or bodies.</param>
    /// <param name="stop">Stops earlier when it says true.</param>
    public LoopResult Run(long units, Func<bool>? stop = null)
    {
        foreach (var input in target.Seeds)
        {
            if (Give(input, input.Length, out var signature) is { } failure)
                return Result(failure);
            corpus.AddSeed(input, signature);
        }

        var buffer = new byte[target.MaxBytes];
        while (target.Units < units && stop?.Invoke() != true)
        {
            var length = target.Mutate(corpus.Pick(ref dice), corpus.Pick(ref dice), buffer, ref dice);
            if (Give(buffer, length, out var signature) is { } failure)
                return Result(failure);
            corpus.Offer(buffer.AsSpan(0, length), signature, ref dice);
        }

        watched?.Rest();
        return Result(null);
    }

    private Failure? Give(byte[] buffer, int length, out ulong signature)
    {
        inputs++;
        watched?.Begin(buffer, length);
        try
        {
            signature = target.Run(buffer.AsSpan(0, length));
            return null;
        }
        catch (Exception e)
        {
            // Whatever it is, it is what is looked for here.
            signature = 0;
            var small = Minimiser.Shrink(target, buffer.AsSpan(0, length).ToArray(), e);
            watched?.Rest();
            return small;
        }
    }

    private LoopResult Result(Failure? failure) => new(inputs, target.Units, corpus.Count, corpus.Behaviours, failure);
}
