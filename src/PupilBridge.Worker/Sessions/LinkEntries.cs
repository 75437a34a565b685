using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;
using EntryCause = PupilBridge.Exams.Entries.LossCause;
using EntryOutcome = PupilBridge.Exams.Entries.CommandOutcome;
using LinkCause = PupilBridge.Instrument.Links.LossCause;
using LinkOutcome = PupilBridge.Instrument.Links.CommandOutcome;

namespace PupilBridge.Worker.Sessions;

/// <summary>What the link says, as entries of the journal.</summary>
internal static class LinkEntries
{
    public static InstrumentMet Met(HostLinkOutput.Met met, string port, Moment now) =>
        new()
        {
            At = now.At,
            Serial = met.Identity.Serial,
            Boot = met.Identity.Boot,
            PortName = port,
            RawLines = [.. met.RawLines.Select(line => Text(line.Span))],
        };

    public static InstrumentReported Reported(
        HostLinkOutput.Accept accept,
        SerialNumber serial,
        TickTimes.Time estimate,
        Moment now
    ) =>
        new()
        {
            Serial = serial,
            Boot = accept.Event.Boot,
            Sequence = accept.Event.Sequence,
            RawLine = Text(accept.Raw.Span),
            HappenedAt = estimate.HappenedAt,
            UncertaintyMilliseconds = estimate.UncertaintyMilliseconds,
            ArrivedAt = now.At,
        };

    public static EventsLost Lost(HostLinkOutput.Lost lost, Moment now) =>
        new()
        {
            At = now.At,
            Serial = lost.Serial,
            Boot = lost.Boot,
            First = lost.First,
            Last = lost.Last,
            Cause = lost.Cause switch
            {
                LinkCause.MemoryOverflow => EntryCause.MemoryOverflow,
                LinkCause.TakenByOtherHost => EntryCause.TakenByAnotherHost,
                LinkCause.BootEnded => EntryCause.BootEnded,
                LinkCause.MissingFromJournal => EntryCause.MissingFromJournal,
                _ => EntryCause.NoLongerKept,
            },
        };

    public static EventsConflict Conflict(HostLinkOutput.Conflicting conflict, SerialNumber serial, Moment now) =>
        new()
        {
            At = now.At,
            Serial = serial,
            Boot = conflict.Boot,
            Sequence = conflict.Sequence,
            RawLine = Text(conflict.Raw.Span),
        };

    public static CommandWished Wished(
        HostId host,
        SerialNumber serial,
        uint number,
        InstrumentCommand command,
        PersonId? who,
        Moment now
    ) =>
        new()
        {
            At = now.At,
            Serial = serial,
            Number = number,
            Command = OnTheWire(HostLine.Ask(host, number, command)),
            Who = who,
        };

    public static CommandEnded Ended(HostLinkOutput.CommandEnded ended, SerialNumber serial, Moment now) =>
        new()
        {
            At = now.At,
            Serial = serial,
            Number = ended.Number,
            Outcome = ended.Outcome switch
            {
                LinkOutcome.Done => EntryOutcome.Done,
                LinkOutcome.Refused => EntryOutcome.Refused,
                LinkOutcome.Unknown => EntryOutcome.Unknown,
                LinkOutcome.Busy => EntryOutcome.Busy,
                _ => EntryOutcome.NoReply,
            },
            Reason = ended.Reason,
        };

    /// <summary>The command as on the wire, after type, host and number, and without the CRC.</summary>
    private static string OnTheWire(in HostLine line)
    {
        Span<byte> bytes = stackalloc byte[WireLimits.MaxLineBytes];
        var text = Text(bytes[..HostLineEncoder.Encode(line, bytes)]);
        return text[..text.LastIndexOf('*')].Split(',', 4)[3];
    }

    private static string Text(ReadOnlySpan<byte> line) => Encoding.ASCII.GetString(line);
}
