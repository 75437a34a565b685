using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using StreamJsonRpc;

namespace PupilBridge.Verbs.Entering;

/// <summary>
/// Sends entries to the desk. An entry whose fate is not known, because the service ended meanwhile, is sent again with the
/// same id, to the service that comes back or without one; the journal takes one copy.
/// </summary>
/// <param name="call">The invocation.</param>
/// <param name="access">The desk; it is replaced when the connection breaks.</param>
internal sealed class EntrySending(Call call, DeskAccess access) : IAsyncDisposable
{
    private const int MaxTries = 3;
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(500);

    private DeskAccess access = access;

    /// <summary>The desk as it is reached now.</summary>
    public DeskAccess Access => access;

    /// <summary>Opens the way to the desk.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>Ready to send; dispose of it when done.</returns>
    public static async Task<EntrySending> OpenAsync(Call call, CancellationToken cancel) =>
        new(call, await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false));

    /// <summary>Sends an entry until its fate is known.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="cancel">Gives up; the entry may be recorded all the same.</param>
    /// <returns>Its place in the journal, and the exam it belongs to.</returns>
    /// <exception cref="CommandFailure">It was refused, or the service stays away.</exception>
    public async Task<(long Sequence, long? Exam)> SendAsync(DeskEntry entry, CancellationToken cancel)
    {
        for (var tries = 1; ; tries++)
        {
            try
            {
                return Taken(await access.Desk.EnterAsync(entry, cancel).ConfigureAwait(false));
            }
            catch (ConnectionLostException) when (tries < MaxTries)
            {
                await Task.Delay(BetweenTries, call.Time, cancel).ConfigureAwait(false);
                await access.DisposeAsync().ConfigureAwait(false);
                access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
            }
            catch (ConnectionLostException)
            {
                throw DeskAccess.Broken();
            }
            catch (RemoteInvocationException fault)
            {
                throw new CommandFailure(ExitCode.Refused, fault.Message);
            }
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => access.DisposeAsync();

    private (long Sequence, long? Exam) Taken(EntryOutcome outcome)
    {
        switch (outcome)
        {
            case EntryOutcome.Recorded recorded:
                if (recorded.Notice is { } notice)
                {
                    call.Remark($"pupilbridge: {notice}");
                }

                return (recorded.Sequence, recorded.Exam);
            case EntryOutcome.AlreadyRecorded earlier:
                return (earlier.Sequence, earlier.Exam);
            case EntryOutcome.Refused refused:
                throw new CommandFailure(ExitCode.Refused, refused.Reason, refused.NextStep);
            default:
                throw new InvalidOperationException($"The desk answered with {outcome.GetType().Name}.");
        }
    }
}
