using Polly;
using Polly.Retry;

namespace PupilBridge.Exchange.Sending;

/// <summary>The tries of one sending: a few in a row with longer and longer waits, drawn by chance.</summary>
internal static class TryPipeline
{
    /// <summary>Builds it.</summary>
    /// <param name="settings">How often, and after what waits.</param>
    /// <param name="time">The clock that waits run on.</param>
    /// <param name="chance">Numbers from 0 to 1, from a seeded generator.</param>
    public static ResiliencePipeline Build(SendingSettings settings, TimeProvider time, Func<double> chance)
    {
        var builder = new ResiliencePipelineBuilder { TimeProvider = time };
        if (settings.Retry.TriesInARow > 0)
        {
            builder.AddRetry(
                new RetryStrategyOptions
                {
                    MaxRetryAttempts = settings.Retry.TriesInARow,
                    // A server that is away, or asks for patience, is left to the wait that all records share.
                    ShouldHandle = new PredicateBuilder().Handle<TryLaterException>(later =>
                        later is { IsServer: false, RetryAfter: null }
                    ),
                    DelayGenerator = args =>
                        ValueTask.FromResult<TimeSpan?>(settings.Retry.After(args.AttemptNumber, chance())),
                }
            );
        }

        return builder.Build();
    }
}
