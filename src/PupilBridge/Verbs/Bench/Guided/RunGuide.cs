using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary>
/// Guides a technician through one open run: tells what is asked for, follows what is recorded, takes what is typed. Whatever happens to
/// this command, the run and its readings stay in the journal.
/// </summary>
/// <param name="call">The invocation.</param>
/// <param name="typist">Who sits here.</param>
/// <param name="sending">The way to the desk.</param>
/// <param name="finishes">Whether the run is finished without asking once nothing is missing.</param>
internal sealed class RunGuide(Call call, Typist typist, EntrySending sending, bool finishes)
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(250);

    private readonly RunTelling telling = new(call);
    private readonly TypedLines typed = TypedLines.Of(call.Terminal);
    private bool saidThatNobodyTypes;

    /// <summary>Goes on until the run has ended.</summary>
    /// <param name="number">The run.</param>
    /// <param name="cancel">Leaves it open.</param>
    /// <returns>The run as it ended.</returns>
    /// <exception cref="CommandFailure">The service went away, or there is no such run. The run stays open.</exception>
    public async Task<BenchRunView> FollowAsync(long number, CancellationToken cancel)
    {
        while (true)
        {
            var run = await sending.Access.RunAsync(number, cancel).ConfigureAwait(false);
            telling.Tell(run);
            if (run.Line.State != "open")
            {
                return run;
            }

            if (finishes && run is { ToCome: 0, Done: > 0 })
            {
                await EnterAsync(End(number, null), cancel).ConfigureAwait(false);
            }
            else if (typed.Take() is { } line)
            {
                await DoAsync(run, RunWish.Of(line), cancel).ConfigureAwait(false);
            }
            else
            {
                SayIfNobodyTypes();
                await Task.Delay(BetweenLooks, call.Time, cancel).ConfigureAwait(false);
            }
        }
    }

    private Task DoAsync(BenchRunView run, RunWish wish, CancellationToken cancel)
    {
        switch (wish)
        {
            case RunWish.Finish when WhyNotFinished(run) is { } why:
                return Say(why);
            case RunWish.Finish or RunWish.FinishAnyway:
                return EnterAsync(End(run.Line.Run, null), cancel);
            case RunWish.GiveUp given:
                return EnterAsync(End(run.Line.Run, given.Reason), cancel);
            case RunWish.Light light:
                return EnterAsync(Room(run.Line.Run, light.Word), cancel);
            case RunWish.Mark mark when mark.Number < 1 || mark.Number > run.Readings.Count:
                return Say($"There is no reading {mark.Number}; there are {run.Readings.Count}.");
            case RunWish.Mark mark:
                return EnterAsync(Marked(run, mark), cancel);
            default:
                return Say(
                    $"{((RunWish.NotUnderstood)wish).Why} Enter finishes; x NUMBER REASON sets a reading aside, u NUMBER REASON lets it "
                        + "count again; f finishes with readings missing; bright or dim says how the room is lit; q REASON gives up; "
                        + "Ctrl-C leaves the run open."
                );
        }
    }

    private static string? WhyNotFinished(BenchRunView run) =>
        run.ToCome > 0
            ? $"{run.ToCome} readings are still to come. 'f' finishes the run without them; 'q REASON' gives it up."
        : run is { Line.Kind: "timing", Timing.Count: 0 }
            ? "No stimulus is recorded yet. 'f' finishes the run without any; 'q REASON' gives it up."
        : null;

    /// <summary>Enters something; what the desk refuses is told, and the run goes on.</summary>
    private async Task EnterAsync(DeskEntry entry, CancellationToken cancel)
    {
        try
        {
            await sending.SendAsync(entry, cancel).ConfigureAwait(false);
        }
        catch (CommandFailure refused) when (refused.Code == ExitCode.Refused)
        {
            call.Remark($"{refused.Message} {refused.Next}");
        }

        if (!sending.Access.IsService)
        {
            // Without the service no reading comes; and this command must not keep the folder from the service that is to start.
            throw DeskAccess.Broken();
        }
    }

    private Task Say(string words)
    {
        call.Remark(words);
        return Task.CompletedTask;
    }

    private void SayIfNobodyTypes()
    {
        if (typed.IsOver && !finishes && !saidThatNobodyTypes)
        {
            saidThatNobodyTypes = true;
            call.Remark("Nobody can type here: finish the run in the console, or add --finish.");
        }
    }

    private EndRunEntry End(long run, string? reason)
    {
        var stamp = typist.Stamp(call);
        return new EndRunEntry
        {
            EntryId = Typist.NewId(),
            Who = stamp.Who,
            At = stamp.At,
            ProgramVersion = stamp.ProgramVersion,
            Run = run,
            IsFinished = reason is null,
            Reason = reason,
        };
    }

    private MarkReadingEntry Marked(BenchRunView run, RunWish.Mark mark)
    {
        var stamp = typist.Stamp(call);
        return new MarkReadingEntry
        {
            EntryId = Typist.NewId(),
            Who = stamp.Who,
            At = stamp.At,
            ProgramVersion = stamp.ProgramVersion,
            Run = run.Line.Run,
            Reading = run.Readings[mark.Number - 1].Reading,
            IsSetAside = mark.IsSetAside,
            Reason = mark.Reason,
        };
    }

    private RoomLightEntry Room(long run, string light)
    {
        var stamp = typist.Stamp(call);
        return new RoomLightEntry
        {
            EntryId = Typist.NewId(),
            Who = stamp.Who,
            At = stamp.At,
            ProgramVersion = stamp.ProgramVersion,
            Exam = run,
            Light = light,
        };
    }
}
