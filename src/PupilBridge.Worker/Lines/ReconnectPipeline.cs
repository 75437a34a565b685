using Polly;
using Polly.Retry;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// The pipeline that tries a port again for ever. One execution lasts from the first try until the line has been good
/// for a while: what is executed throws as long as it has not, so that a port which opens and dies at once makes the
/// waits longer like one that does not open at all.
/// </summary>
internal static class ReconnectPipeline
{
    /// <param name="timing">First wait and cap.</param>
    /// <param name="time">The clock that the waits run on.</param>
    /// <param name="chance">Numbers from 0 to 1, from a seeded generator.</param>
    /// <param name="onWait">Told of each failure and of the wait that follows.</param>
    public static ResiliencePipeline Build(
        ReconnectTiming timing,
        TimeProvider time,
        Func<double> chance,
        Action<Exception, TimeSpan> onWait
    ) =>
        new ResiliencePipelineBuilder { TimeProvider = time }
            .AddRetry(
                new RetryStrategyOptions
                {
                    MaxRetryAttempts = int.MaxValue,
                    ShouldHandle = new PredicateBuilder().Handle<Exception>(e => e is not OperationCanceledException),
                    // The delay is drawn here and not by the built-in jitter, which vanishes at the cap.
                    DelayGenerator = args =>
                        ValueTask.FromResult<TimeSpan?>(timing.After(args.AttemptNumber, chance())),
                    OnRetry = args =>
                    {
                        onWait(args.Outcome.Exception!, args.RetryDelay);
                        return ValueTask.CompletedTask;
                    },
                }
            )
            .Build();
}
