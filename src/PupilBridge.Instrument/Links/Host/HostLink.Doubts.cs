namespace PupilBridge.Instrument.Links;

/// <content>
/// What is said to be lost is taken within reason only: nothing undoes it, and all that follows under those numbers would count as repeated.
/// One false line must not cost the rest of a boot.
/// </content>
public static partial class HostLink
{
    /// <summary>Whether a loss up to a number is taken. If not, it is counted and told, and the instrument is asked again.</summary>
    /// <param name="turn">The step.</param>
    /// <param name="progress">How far the boot was taken.</param>
    /// <param name="last">The last number that is said to be lost.</param>
    /// <param name="tick">The tick of the line that says so.</param>
    private static bool Believes(Turn turn, BootProgress progress, long last, Tick tick)
    {
        var possible = last - LinkTiming.EventsAhead <= tick.Milliseconds;
        var isMuch = last - progress.Accepted > LinkTiming.LossAtOnce;
        var isAgain = turn.State.Doubted is { } before && Math.Abs(last - before) <= LinkTiming.LossAtOnce;
        if (possible && (!isMuch || isAgain))
        {
            turn.State = turn.State with { Doubted = null };
            return true;
        }

        turn.State = turn.State with { Doubted = possible ? last : turn.State.Doubted, ResendWanted = true };
        turn.Count(c => c with { Doubted = c.Doubted + 1 });
        turn.Do(new HostLinkOutput.LossDoubted(progress.Expected, last, possible));
        return false;
    }

    /// <summary>
    /// Numbers that are not kept any more, by a heartbeat. Up to what the identity said to be acknowledged they have another cause than
    /// beyond.
    /// </summary>
    private static void LoseUpTo(Turn turn, BootProgress progress, long last)
    {
        if (turn.State.Identity is { } identity && identity.Acknowledged > progress.Accepted)
            LoseAcknowledged(turn, progress, identity, Math.Min(identity.Acknowledged, last));
        if (turn.State.Progress is { } now && now.Accepted < last)
            Lose(turn, now, last, LossCause.NoLongerKept, default, default);
    }

    private static void LoseAcknowledged(Turn turn, BootProgress progress, InstrumentIdentity identity, long last)
    {
        var own = identity.AcknowledgedBy == turn.State.Host;
        var cause = own ? LossCause.MissingFromJournal : LossCause.TakenByOtherHost;
        Lose(turn, progress, last, cause, own ? default : identity.AcknowledgedBy, default);
    }
}
