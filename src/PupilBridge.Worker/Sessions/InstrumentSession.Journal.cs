using System.Collections.Immutable;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;

namespace PupilBridge.Worker.Sessions;

/// <content>What the journal tells, and commands, which are journalled before they are sent.</content>
internal sealed partial class InstrumentSession
{
    private readonly Dictionary<long, InstrumentCommand> wishes = [];
    private (SerialNumber Serial, BootNumber Boot)? asked;
    private (BootNumber Boot, long Sequence) durable;
    private bool durableMoved;
    private TimeSpan durableMovedAt;

    /// <summary>An entry that concerns this session's instrument is on disk.</summary>
    /// <param name="entry">The entry, whoever gave it.</param>
    /// <param name="now">The present moment.</param>
    public void OnRecorded(JournalEntry entry, Moment now)
    {
        switch (entry)
        {
            case InstrumentReported reported:
                NoteDurable(reported.Boot, reported.Sequence, now);
                break;
            case EventsLost { Last: { } last } lost:
                NoteDurable(lost.Boot, last, now);
                break;
            case CommandWished wished when wishes.Remove(wished.Number, out var command):
                Step(new HostLinkInput.Wish((uint)wished.Number, command, now.Monotonic), now);
                break;
        }
    }

    /// <summary>
    /// Nothing more is known to be on disk just now: what is, is acknowledged, with one line however many events it was.
    /// </summary>
    /// <param name="now">The present moment.</param>
    public void OnCaughtUp(Moment now)
    {
        if (durableMoved)
        {
            durableMoved = false;
            Step(new HostLinkInput.MadeDurable(durable.Boot, durable.Sequence, now.Monotonic), now);
            Update(state => state.Boot == durable.Boot ? state with { Recorded = durable.Sequence } : state);
        }

        TryAnswerPosition(now);
    }

    /// <summary>A command is wished for. It is sent once the wish is on disk.</summary>
    /// <param name="number">A number that was never used with this instrument.</param>
    /// <param name="command">What is asked.</param>
    /// <param name="who">Who asks; null for the service.</param>
    /// <param name="now">The present moment.</param>
    public void OnCommandWished(uint number, InstrumentCommand command, PersonId? who, Moment now)
    {
        if (!IsConnected || Serial is not { } serial)
        {
            const string reason = "The instrument is not connected.";
            around.CommandEnded(number, PupilBridge.Exams.Entries.CommandOutcome.NoReply, reason);
            return;
        }

        wishes[number] = command;
        around.Submit(LinkEntries.Wished(settings.Host, serial, number, command, who, now));
    }

    private void OnCommandEnded(HostLinkOutput.CommandEnded command, Moment now)
    {
        if (Serial is not { } serial)
            return;
        var ended = LinkEntries.Ended(command, serial, now);
        around.Submit(ended);
        around.CommandEnded(command.Number, ended.Outcome, ended.Reason);
    }

    private void NoteDurable(BootNumber boot, long sequence, Moment now)
    {
        if (boot != link.Progress?.Boot)
            return;
        durable = (boot, durable.Boot == boot ? Math.Max(durable.Sequence, sequence) : sequence);
        if (!durableMoved)
            durableMovedAt = now.Monotonic;
        durableMoved = true;
    }

    /// <summary>
    /// Tells the link how far the journal has the instrument's boot. What was handed over by an earlier line and is still on
    /// its way to the disk is waited for: it must neither be taken twice nor be acknowledged too early.
    /// </summary>
    private void TryAnswerPosition(Moment now)
    {
        if (asked is not { } question)
            return;
        var position = around.Find(question.Serial, question.Boot);
        if (position is not null && position.Submitted > position.Durable)
            return;
        asked = null;
        var prints = position
            ?.Prints.Where(print => print.Crc is not null)
            .ToImmutableDictionary(print => print.Sequence, print => print.Crc!.Value);
        Step(
            new HostLinkInput.PositionKnown(
                question.Boot,
                position?.Durable ?? 0,
                position?.Ended ?? false,
                prints ?? ImmutableDictionary<long, uint>.Empty,
                [.. around.OpenBoots(question.Serial, question.Boot)],
                now.Monotonic
            ),
            now
        );
        var known = position?.Durable ?? 0;
        Update(state =>
            state with
            {
                Received = Math.Max(state.Received, known),
                Recorded = Math.Max(state.Recorded, known),
            }
        );
    }
}
